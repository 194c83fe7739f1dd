import { listed, pixels, quantity } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import type { Compared, Drift } from './set-drift.ts'
import { type Miss, traitOf } from './set-misses.ts'
import { wordsFor } from './set-words.ts'
import { timeBetween } from './time-between.ts'

/** A set of two groups in one finding: which they are, how they differ, and what to do with the smaller one. */
export function driftFinding({ few, many, misses }: Drift, where: string, limit: number): DeliveryFinding {
  const words = wordsFor(misses, 'the others')
  const when = timeBetween(
    few.map(({ file }) => file),
    many.map(({ file }) => file),
  )
  const taken = when === null ? '' : ` The ${few.length} were taken ${when}.`
  const steps = [
    ...misses.flatMap((miss) => framingStep(miss, few)),
    ...words.flatMap(({ step }) => step ?? []),
  ]
  const haveCrops = misses.some(isFraming) && few.some(({ file }) => file.fileCrop !== null)
  const own = haveCrops ? ' Where another finding gives a file its crop, use that one.' : ''
  return {
    people: [...new Set(few.flatMap(({ file }) => file.person ?? []))],
    files: few.map(({ file }) => file.name.path),
    traits: misses.map(traitOf),
    verdict: 'fail',
    measured: words.map(({ short }) => short).join('; '),
    expected: 'one set',
    reason: `${where} has drifted into two groups. In ${few.length} portraits (${namesOf(few)}) ${listed(words.map(({ long }) => long))}; the others are ${many.length} (${namesOf(many)}).${taken}`,
    figure: { value: Math.max(...misses.map(({ off }) => Math.abs(off))), max: limit },
    fix: `Bring the ${few.length} in line with the others first. ${steps.join(' ')}${own}`,
  }
}

/** Most files of a group named in a sentence. @choice longer lists are hard to read, no source; the finding lists all to be changed. */
const MOST_NAMED = 3

function namesOf(group: readonly Compared[]): string {
  const names = group.slice(0, MOST_NAMED).map(({ file }) => quoted(file.name.path))
  const more = group.length - names.length
  return listed(more > 0 ? [...names, `${more} more`] : names)
}

/** How the crop of a typical file of the group has to change; each has its own place for the rest. */
function framingStep({ trait, value, set }: Miss, group: readonly Compared[]): string[] {
  const [first] = group
  const { widthPx, heightPx } = first?.file.measured ?? {}
  if (!widthPx || !heightPx) return []
  const off = value - set.median
  if (trait.id === 'eye-line')
    return [`Move the crop ${off < 0 ? 'up' : 'down'} by about ${pixels(Math.abs(off), heightPx)}.`]
  if (trait.id === 'centering')
    return [`Move the crop to the ${off < 0 ? 'left' : 'right'} by about ${pixels(Math.abs(off), widthPx)}.`]
  if (trait.id === 'face-height')
    return [
      `Crop ${off < 0 ? 'tighter' : 'wider'} by about ${quantity(100 * Math.abs(value / set.median - 1), ' %')}.`,
    ]
  return []
}

function isFraming({ trait: { id } }: Miss): boolean {
  return id === 'eye-line' || id === 'centering' || id === 'face-height'
}
