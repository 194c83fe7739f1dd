import { capitalized } from '../../text/capitalized.ts'
import { quoted } from '../../text/quoted.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import type { DeliveredFile } from '../contract/delivery-rule.ts'
import { isColorless } from '../judging/unseen.ts'
import { setCrop } from './set-crop.ts'
import type { Compared, Drift } from './set-drift.ts'
import { type Miss, missesOf, type Norms, normsOf, traitOf } from './set-misses.ts'
import { errorsOf } from './set-traits.ts'
import { wordsFor } from './set-words.ts'

/** A portrait that stands out. */
export interface Outlier {
  readonly file: DeliveredFile
  readonly misses: readonly Miss[]
  /** Black and white in a set of color. */
  readonly isColorless: boolean
}

/** The portraits that stand out, the farthest first; in a set of two groups, from their own. */
export function outliersOf(
  set: readonly Compared[],
  norms: Norms,
  drifts: readonly Drift[],
  limit: number,
): Outlier[] {
  const inColor = set.filter(({ file }) => !isColorless(file.measured)).length > set.length / 2
  const outliers = set.map(({ file, traits }): Outlier => {
    const own = drifts.reduce((all, drift) => withinGroup(all, drift, file), norms)
    return {
      file,
      misses: missesOf(traits, own, limit, () => errorsOf(file.measured)),
      isColorless: inColor && isColorless(file.measured) && !file.settled.includes('no-color'),
    }
  })
  return outliers
    .filter((one) => one.isColorless || one.misses.length > 0)
    .sort((a, b) => worst(b) - worst(a))
}

/** The norms with those of the file's own group for the traits that divide the set. */
function withinGroup(norms: Norms, { few, many, misses }: Drift, file: DeliveredFile): Norms {
  const group = [few, many].find((one) => one.some((other) => other.file === file))
  if (!group) return norms
  const own = normsOf(
    group.map(({ traits }) => traits),
    1,
  )
  const divided = new Set(misses.map(({ trait }) => trait.id))
  return new Map([...norms].map(([id, all]) => [id, divided.has(id) ? (own.get(id) ?? all) : all]))
}

function worst({ misses, isColorless: hasNoColor }: Outlier): number {
  return hasNoColor ? Infinity : Math.abs(misses[0]?.off ?? 0)
}

/** What is asked of a portrait beside its set. */
export const AS_IN_SET = 'as in the set'

const COLORLESS = {
  short: 'no color',
  long: 'it is in black and white, and the set is in color',
  step: 'Deliver the color version.',
}

/** @param isFirst whether it is the file to begin with */
export function outlierFinding(
  outlier: Outlier,
  whose: string,
  limit: number,
  isFirst: boolean,
): DeliveryFinding {
  const { file, misses } = outlier
  const [farthest] = misses
  const words = [...(outlier.isColorless ? [COLORLESS] : []), ...wordsFor(misses, whose)]
  const reframed = setCrop(file, misses)
  const steps = [
    ...(isFirst ? ['Start with this file.'] : []),
    ...(reframed?.fix ? [reframed.fix] : []),
    ...words.flatMap(({ step }) => step ?? []),
  ]
  return {
    people: file.person === null ? [] : [file.person],
    files: [file.name.path],
    traits: [...(outlier.isColorless ? ['no-color'] : []), ...misses.map(traitOf)],
    verdict: 'fail',
    measured: words.map(({ short }) => short).join('; '),
    expected: AS_IN_SET,
    reason: `${quoted(file.name.path)} stands out from ${whose}: ${words.map(({ long }) => long).join('; ')}.`,
    fix: steps.map(capitalized).join(' '),
    ...(farthest && { figure: { value: Math.abs(farthest.off), max: limit } }),
    ...(reframed?.crop && { crop: reframed.crop }),
  }
}
