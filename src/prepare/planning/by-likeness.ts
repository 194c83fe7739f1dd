import { type ReadySignature, ready } from '../../likeness/ready-signature.ts'
import { sameFrame, samePicture } from '../../likeness/same-picture.ts'
import type { Measurements } from '../../measure/schema/measurements.ts'
import { listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { StandsFor, Whose } from './stands-for.ts'

/** A file of the delivery that is to be made anew, with whom its name stands for. */
export interface Delivered {
  readonly measured: Measurements
  readonly named: StandsFor
}

/**
 * Whom masters show by the files of a delivery that are of their frames: their names tell. Null for one that no file is of.
 * The frame is recognized, not the person.
 */
export function byLikeness(
  masters: readonly Measurements[],
  delivered: readonly Delivered[],
): (Whose | null)[] {
  const signed = masters.map(signedOf)
  const kins = delivered.flatMap((one) => {
    const own = signedOf(one.measured)
    return own
      ? [
          kinOf(
            one,
            signed.map((master) => master && likenessOf(master, own)),
          ),
        ]
      : []
  })
  return masters.map((_, index) => answerOf(kins.filter(({ master }) => master === index)))
}

interface Signed {
  readonly signature: ReadySignature
  readonly face: Measurements['face']
}

function signedOf({ signature, face }: Measurements): Signed | null {
  const own = signature && ready(signature)
  return own ? { signature: own, face } : null
}

interface Pair {
  readonly local: number
  /** Whether they would be one picture too if nothing told that they are of one person. */
  readonly isSure: boolean
}

/** Null where they are not of one frame, or the one is mirrored. */
function likenessOf(a: Signed, b: Signed): Pair | null {
  const picture = samePicture(a.signature, b.signature)
  const isSure = picture.sameness === 'same' && !picture.isMirrored
  const { sameness, isMirrored, local } = sameFrame(a.signature, b.signature, [a.face, b.face])
  const isFrame = sameness === 'same' && isMirrored !== true
  return isSure || isFrame ? { local, isSure } : null
}

interface Kin {
  readonly file: Delivered
  /** Index of the master that the file is most like; null where it is of none. */
  readonly master: number | null
  readonly isSure: boolean
}

/** A file is of one frame, that of the master it is most like. */
function kinOf(file: Delivered, pairs: readonly (Pair | null)[]): Kin {
  let best: { readonly master: number; readonly pair: Pair } | null = null
  for (const [master, pair] of pairs.entries())
    if (pair && (best === null || pair.local > best.pair.local)) best = { master, pair }
  return { file, master: best?.master ?? null, isSure: best?.pair.isSure ?? false }
}

function answerOf(alike: readonly Kin[]): Whose | null {
  const people = new Map(alike.map(({ file: { named } }) => [JSON.stringify(named.fields), named]))
  const [first, ...others] = people.values()
  if (!first || !alike.some(({ isSure }) => isSure)) return null
  if (others.length > 0) {
    const files = listed(alike.map(({ file: { measured } }) => quoted(measured.file)))
    return {
      question: `It is the frame of ${files}, whose names are of different people. Say by its own name whom it shows (masters.naming in the spec).`,
    }
  }
  return { fields: first.fields, deliverable: null, pick: first.pick }
}
