import { Type } from '@sinclair/typebox'
import { OUTLIER_SCORE } from '../../numbers/robust.ts'
import { count } from '../../text/quantity.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import { type DeliveredFile, type Delivery, defineDeliveryRule } from '../contract/delivery-rule.ts'
import { type Compared, driftsOf } from './set-drift.ts'
import { driftFinding } from './set-drift-words.ts'
import { comparedOf, normsOf } from './set-misses.ts'
import { AS_IN_SET, outlierFinding, outliersOf } from './set-outliers.ts'
import { TRAITS, type Traits, traitsOf } from './set-traits.ts'

/** Fewest portraits from which median and spread say something of a set. @choice common practice, no source. */
const ENOUGH = 8

export const setMatch = defineDeliveryRule({
  id: 'set-match',
  severity: 'picture',
  dependsOn: 'crop',
  text: {
    title: 'Portraits that stand out from the set',
    measures:
      'Eye line, headroom, head height, centering, lightness, unevenness and tint of the backdrop, side and strength of the key light, the color balance on skin (how far its a* and b* lie off those of skin that light, so that nobody stands out for a tone), the fine texture that the skin would show in focus, where it can be read and is less than in the set, and whether the picture is in color. For each deliverable, the set is described by median and spread (median absolute deviation), and a portrait stands out when it is more than `max-score` spreads off. Hair and hats are not the crop: headroom counts only where the eye line is off, too, and head height only where the face is. When a set has drifted into two groups, the smaller one is one finding. With a gallery, the gallery is the set.',
    why: 'Portraits can all meet the spec and still not look as if made in one sitting.',
    fix: 'Fix the file that stands out most, then check again: each fix changes the set a little.',
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
  needs: ['metadata', 'background', 'face', 'head', 'finish', 'focus', 'texture'],
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

function judgeSet(
  deliverable: string | null,
  files: readonly DeliveredFile[],
  { gallery, partial }: Delivery,
  limit: number,
): DeliveryFinding[] {
  const published = (gallery ?? []).filter(
    (one) => one.deliverable === null || one.deliverable === deliverable,
  )
  const byGallery = published.length >= ENOUGH
  if (partial && !byGallery) return []
  const measured = files.map((file) => traitsOf(file.measured))
  const set = files.map((file, i): Compared => ({ file, traits: comparedOf(file, measured[i] as Traits) }))
  const standard = byGallery ? published.map(({ traits }) => traits) : set.map(({ traits }) => traits)
  const where = deliverable === null ? 'The set' : `The set for ${deliverable}`
  const about = { people: [], files: [], measured: null, expected: AS_IN_SET }
  if (standard.length < ENOUGH)
    return [
      {
        ...about,
        verdict: 'skip',
        reason: `${where} has ${count(standard.length, 'portrait')}, and ${ENOUGH} are needed to see which stand out; each is judged by the spec alone.`,
      },
    ]
  const drifts = byGallery ? [] : driftsOf(set, limit)
  const norms = normsOf(standard, ENOUGH)
  const whose = byGallery ? 'the gallery' : 'the set'
  const found: DeliveryFinding[] = [
    ...drifts.map((drift) => driftFinding(drift, where, limit)),
    ...outliersOf(set, norms, drifts, limit).map((outlier, rank, all) =>
      outlierFinding(outlier, whose, limit, rank === 0 && drifts.length === 0 && all.length > 1),
    ),
  ]
  const compared = TRAITS.filter(({ id, isOptional }) => !isOptional && norms.has(id))
  const unknown = files.filter(
    ({ settled }, i) => settled.length === 0 && compared.some(({ id }) => measured[i]?.[id] === null),
  )
  if (unknown.length > 0)
    found.push({
      ...about,
      files: unknown.map(({ name }) => name.path),
      verdict: 'unsure',
      reason: `${where} has ${count(unknown.length, 'portrait')} in which not everything could be measured; check by eye.`,
    })
  if (norms.size === 0 || found.length > 0) return found
  return [
    {
      ...about,
      verdict: 'pass',
      reason: `${where} is consistent: no portrait stands out from ${whose} of ${standard.length}.`,
    },
  ]
}
