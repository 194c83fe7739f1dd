import { ready } from '../../likeness/ready-signature.ts'
import { sameFrame } from '../../likeness/same-picture.ts'
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
 * Whom a master shows by the files of a delivery that are of its frame: their names tell. Null when none is.
 * The frame is recognized, not the person.
 */
export function byLikeness(measured: Measurements, delivered: readonly Delivered[]): Whose | null {
  const own = measured.signature && ready(measured.signature)
  if (!own) return null
  const alike = delivered.filter(({ measured: { signature, face } }) => {
    const other = signature && ready(signature)
    if (!other) return false
    const { sameness, isMirrored } = sameFrame(own, other, [measured.face, face])
    return sameness === 'same' && isMirrored !== true
  })
  const people = new Map(alike.map(({ named }) => [JSON.stringify(named.fields), named]))
  const [first, ...others] = people.values()
  if (!first) return null
  if (others.length > 0) {
    const files = listed(alike.map(({ measured: { file } }) => quoted(file)))
    return {
      question: `It is the frame of ${files}, whose names are of different people. Rename it as masters.naming says.`,
    }
  }
  return { fields: first.fields, deliverable: null, pick: first.pick }
}
