import { Type } from '@sinclair/typebox'
import { OUTLIER_SCORE, type Robust, robust, score } from '../../numbers/robust.ts'
import { asked, count, listed, quantity } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import { type DeliveredFile, type Delivery, defineDeliveryRule } from '../contract/delivery-rule.ts'
import { isFaceless } from '../judging/faceless.ts'
import { TRAITS, type Trait, traitsOf } from './set-traits.ts'

/** Fewest portraits from which median and spread say something of a set. @choice common practice, no source. */
const ENOUGH = 8

export const setMatch = defineDeliveryRule({
  id: 'set-match',
  text: {
    title: 'Portraits that stand out from the set',
    measures:
      'Headroom, eye line, head height, centering, lightness, unevenness and tint of the backdrop, side and strength of the key light: for each deliverable, the median of the set and its spread (median absolute deviation), and how many spreads each portrait is off. With a gallery, the gallery is the set.',
    why: 'Portraits can all meet the spec and still not look as if made in one sitting.',
    fix: 'Fix the portrait that stands out most, then check again: each fix changes the set a little.',
    example: 'set-match: { max-score: 3.5 }',
  },
  options: Type.Object(
    {
      'max-score': Type.Optional(
        Type.Number({
          exclusiveMinimum: 0,
          default: OUTLIER_SCORE,
          description: `Most spreads that a portrait may be off the median; ${OUTLIER_SCORE} by default.`,
        }),
      ),
    },
    {
      additionalProperties: false,
      description: 'How far a portrait may be off the set; {} for the default.',
    },
  ),
  unasked: ({ gallery }) => (gallery === null ? null : {}),
  needs: ['background', 'face', 'head', 'finish'],
  needsWhole: ({ gallery }) => (gallery === null ? 'which portraits stand out from the set' : null),
  judge(delivery, { 'max-score': limit = OUTLIER_SCORE }) {
    const readable = delivery.files.filter(({ measured }) => measured.fault === null)
    const deliverables = [...new Set(readable.map(({ name }) => name.deliverable))]
    return deliverables.flatMap((deliverable) => {
      const files = readable.filter(({ name }) => name.deliverable === deliverable)
      return judgeSet(deliverable, files, delivery, limit)
    })
  },
})

interface Miss {
  readonly trait: Trait
  readonly value: number
  readonly set: Robust
  /** Spreads off the median, with sign. */
  readonly off: number
}

function judgeSet(
  deliverable: string | null,
  files: readonly DeliveredFile[],
  { gallery, facesJudged, partial }: Delivery,
  limit: number,
): DeliveryFinding[] {
  const published = (gallery ?? []).filter(
    (one) => one.deliverable === null || one.deliverable === deliverable,
  )
  const byGallery = published.length >= ENOUGH
  if (partial && !byGallery) return []
  const set = byGallery
    ? published.map(({ traits }) => traits)
    : files.map(({ measured }) => traitsOf(measured))
  const where = deliverable === null ? 'The set' : `The set for ${deliverable}`
  const expected = `within ${asked(limit)} spreads of the median`
  const about = { people: [], files: [], measured: null, expected }
  if (set.length < ENOUGH)
    return [
      {
        ...about,
        verdict: 'skip',
        reason: `${where} has ${count(set.length, 'portrait')}, and ${ENOUGH} are needed to see which stand out; each is judged by the spec alone.`,
      },
    ]
  const norms = TRAITS.flatMap((trait) => {
    const values = set.flatMap((traits) => traits[trait.id] ?? [])
    return values.length < ENOUGH ? [] : [{ trait, set: robust(values) }]
  })
  const judged = files.map((file) => ({ file, misses: missesOf(file, norms, limit) }))
  const outliers = judged.filter(({ misses }) => misses.length > 0).sort((a, b) => worst(b) - worst(a))
  const unknown = files.filter(({ measured }) => {
    const isTold = facesJudged && isFaceless(measured)
    return !isTold && norms.some(({ trait }) => trait.value(measured) === null)
  })
  const whose = byGallery ? 'the gallery' : 'the set'
  const found: DeliveryFinding[] = outliers.map(({ file, misses }, rank) => ({
    people: file.person === null ? [] : [file.person],
    files: [file.name.path],
    verdict: 'fail',
    measured: misses.map(shortOf).join('; '),
    expected,
    reason: `${quoted(file.name.path)} stands out from ${whose}: ${misses.map(sentenceOf).join('; ')}.`,
    fix: fixOf(misses, rank === 0 && outliers.length > 1),
    figure: { value: worst({ misses }), max: limit },
  }))
  if (unknown.length > 0)
    found.push({
      ...about,
      files: unknown.map(({ name }) => name.path),
      verdict: 'unsure',
      reason: `${where} has ${count(unknown.length, 'portrait')} in which not everything could be measured; check by eye.`,
    })
  if (norms.length === 0 || found.length > 0) return found
  return [
    {
      ...about,
      verdict: 'pass',
      reason: `${where} is consistent: no portrait stands out from ${whose} of ${set.length}.`,
    },
  ]
}

function missesOf(
  { measured }: DeliveredFile,
  norms: readonly { readonly trait: Trait; readonly set: Robust }[],
  limit: number,
): Miss[] {
  const misses = norms
    .flatMap(({ trait, set }) => {
      const value = trait.value(measured)
      if (value === null) return []
      const off = score(value, set, trait.least)
      return Math.abs(off) > limit && (off > 0 || trait.low !== null) ? [{ trait, value, set, off }] : []
    })
    .sort((a, b) => Math.abs(b.off) - Math.abs(a.off))
  const missed = new Set(misses.map(({ trait }) => trait.id))
  const known = new Set(norms.flatMap(({ trait }) => (trait.value(measured) === null ? [] : [trait.id])))
  // Where the deciding trait could not be measured, it decides nothing.
  return misses.filter(
    ({ trait: { onlyWith } }) => onlyWith === undefined || missed.has(onlyWith) || !known.has(onlyWith),
  )
}

function worst({ misses }: { readonly misses: readonly Miss[] }): number {
  return Math.abs(misses[0]?.off ?? 0)
}

function sentenceOf({ trait, value, set, off }: Miss): string {
  const by = quantity(Math.abs(value - set.median), trait.unit)
  const noun = trait.noun.charAt(0).toLowerCase() + trait.noun.slice(1)
  return `${noun} is ${quantity(value, trait.unit)}, ${by} ${off < 0 ? 'below' : 'above'} the median (${quantity(Math.abs(off), ' spreads')})`
}

/** What to do; the portrait that stands off farthest is named as the one to begin with. */
function fixOf(misses: readonly Miss[], begin: boolean): string {
  const all = misses.map(({ trait, off }) => (off < 0 && trait.low !== null ? trait.low : trait.high))
  const steps = listed([...new Set(all)])
  const told = begin ? `Begin with this one: ${steps}` : steps.charAt(0).toUpperCase() + steps.slice(1)
  return `${told}, or choose another frame.`
}

function shortOf({ trait, value, set }: Miss): string {
  const by = value - set.median
  return `${trait.noun.replace(/^The /, '')} ${by < 0 ? '-' : '+'}${quantity(Math.abs(by), trait.unit)}`
}
