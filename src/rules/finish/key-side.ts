import { Type } from '@sinclair/typebox'
import { SURE } from '../../measure/schema/confidence.ts'
import { EVEN_KEY_STOPS } from '../../measure/schema/finish.ts'
import { KEY_LIGHT_MOST_TURN_DEG } from '../../measure/schema/gates.ts'
import type { Finish } from '../../measure/schema/measurements.ts'
import { type Limits, sideOf } from '../../numbers/limits.ts'
import { quantity } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { Band, bandText, emptyRange, limitsOf } from '../judging/band.ts'
import { combined } from '../judging/combined.ts'
import { doubtSentence } from '../judging/doubts.ts'
import { judgeLimits } from '../judging/judge-limits.ts'
import { stopText } from '../judging/stops.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { ERROR_NOTE, roughly, type Uncertainty, withinError } from '../judging/within-error.ts'

const SIDES = ['left', 'right', 'none'] as const
type Side = (typeof SIDES)[number]

/**
 * Most that one cheek may be brighter in flat light, stops.
 * @choice twice what the ratio scatters by on portraits in one light, about 0.09 stop; no source
 */
const FLAT_STOPS = 0.2

const FLAT = `flat light, which is ${FLAT_STOPS} stop at most`
const FLAT_BY_EYE =
  ' whether one side of the face looks darker. To allow more, ask for "ratio: { max: 0.5 }" in place of "side: none"'

const AGAIN = 'Choose a frame lit from that side or shoot again.'
const MIRROR = 'Do not flip the picture: hair partings, badges and lettering would be reversed.'

export const keySide = defineRule({
  id: 'key-side',
  severity: 'picture',
  dependsOn: 'scene',
  text: {
    title: 'Side and strength of the key light',
    measures: `How much brighter one side of the face is than the other, in stops (log2 of linear light, IEC 61966-2-1): the median of mirrored parts of cheeks, forehead and chin, each with the mean between its quartiles, so that stubble and a rim do not matter. Red less blue is compared, which holds no white, so that shine on the skin does not count (dichromatic model, Shafer 1985); in gray pictures, luminance. On 51 portraits of all tones in one light, the ratio scatters by 0.04 to 0.09 stop. The side is that of the brighter cheek as seen in the frame; under ${EVEN_KEY_STOPS} stop there is none. Light is flat up to ${FLAT_STOPS} stop, which is little more than the error, so that many a face in flat light is unsure: allow more with ratio where that is too strict. ${ERROR_NOTE} Also unsure: a cheek covered by hair, a hard shadow, very dark skin in deep shade, and faces turned by more than ${KEY_LIGHT_MOST_TURN_DEG}°.`,
    why: 'Portraits lit from different sides, or some flat and some with deep shadows, do not look like one set.',
    fix: 'Choose a frame lit as asked; add or remove fill light, or lighten the darker cheek in retouching.',
    example: 'key-side: { side: left, ratio: { min: 0.3, max: 1.5 } }',
  },
  options: Type.Object(
    {
      side: Type.Optional(
        Type.Unsafe<Side>(
          Type.Union(
            SIDES.map((side) => Type.Literal(side)),
            { description: 'Side of the brighter cheek as seen in the frame; none for flat light.' },
          ),
        ),
      ),
      ratio: Type.Optional(Band),
    },
    {
      additionalProperties: false,
      minProperties: 1,
      description: 'Where the key light comes from, and how much brighter that cheek is, in stops.',
    },
  ),
  problem: ({ ratio }) => (ratio ? emptyRange(limitsOf(ratio)) : null),
  needs: ['face', 'finish'],
  judge({ measured }, { side, ratio }) {
    const { finish } = measured
    if (!finish) return unmeasured(measured, 'The key light')
    return combined([
      ...(side ? [judgeSide(finish, side)] : []),
      ...(ratio ? [judgeRatio(finish, limitsOf(ratio))] : []),
    ])
  },
})

function judgeRatio(finish: Finish, limits: Limits): Finding {
  const { keyRatioStops, key } = finish
  const asked = stopText(bandText(limits, ''))
  return judgeLimits({
    noun: 'The difference between the cheeks',
    value: keyRatioStops,
    limits,
    confidence: key.confidence,
    doubts: key.doubts,
    found: (value) => {
      const short = stopText(quantity(value, '', limits))
      return { short, long: `One cheek is ${short} brighter than the other` }
    },
    uncertainty: uncertaintyOf(finish),
    asked: { short: asked, long: asked },
    low: (by) =>
      `Darken the darker cheek by at least ${stopText(hundredths(by))}: remove fill light, or burn it in while retouching.`,
    high: (by) =>
      `Lighten the darker cheek by at least ${stopText(hundredths(by))}: add fill light or a reflector, or dodge it while retouching.`,
  })
}

function judgeSide(finish: Finish, asked: Side): Finding {
  const { keySide, keyRatioStops, key } = finish
  const expected = asked === 'none' ? 'flat light' : `key light from the ${asked}`
  if (keySide === null || keyRatioStops === null || key.confidence < SURE) {
    return {
      verdict: 'unsure',
      measured: keySide && roughly(words(keySide)),
      expected,
      reason: `The side of the key light could not be measured with confidence: ${doubtSentence(key.doubts)}. The spec asks for ${expected}; check by eye.`,
    }
  }
  // Of light that is from neither side nobody knows to which it leans: it is taken for the one asked for.
  const value = asked !== 'none' && asked !== keySide && keySide !== 'none' ? -keyRatioStops : keyRatioStops
  const limits: Limits =
    asked === 'none' ? { min: -Infinity, max: FLAT_STOPS } : { min: EVEN_KEY_STOPS, max: Infinity }
  const isMet = sideOf(value, limits) === 'inside'
  const finding: Finding = {
    verdict: isMet ? 'pass' : 'fail',
    measured: words(asked === 'none' && isMet ? 'none' : keySide),
    expected,
    reason: `${sideText(keySide, quantity(keyRatioStops, '', limits))}; the spec asks for ${expected}.`,
  }
  if (!isMet) finding.fix = fixSide(asked)
  const uncertainty = uncertaintyOf(finish)
  return asked === 'none'
    ? withinError(finding, value, limits, { ...uncertainty, eye: FLAT_BY_EYE }, FLAT)
    : withinError(finding, value, limits, uncertainty, expected)
}

function sideText(side: Side, stops: string): string {
  return side === 'none'
    ? `Both cheeks are equally bright (less than ${EVEN_KEY_STOPS} stop apart)`
    : `The ${side} cheek in the frame is ${stopText(stops)} brighter than the ${side === 'left' ? 'right' : 'left'}`
}

function uncertaintyOf({ keyRatioErrorStops }: Finish): Uncertainty {
  return {
    error: keyRatioErrorStops ?? 0,
    unit: ' stop',
    between: (low, high) =>
      low < 0
        ? `One cheek is up to ${stopText(quantity(Math.max(-low, high), ''))} brighter than the other`
        : `One cheek is ${quantity(low, '')} to ${stopText(quantity(high, ''))} brighter than the other`,
  }
}

function words(side: Side): string {
  return side === 'none' ? 'flat light' : `key light from the ${side}`
}

function fixSide(asked: Side): string {
  if (asked === 'none') return 'Choose a frame in flat light, or fill the darker cheek until both match.'
  return `${AGAIN} ${MIRROR}`
}

function hundredths(stops: number): string {
  return String(Math.ceil(stops * 100 - ROUNDING) / 100)
}

/** Rounding of the logarithm, which must not add a hundredth, hundredths of a stop. @choice far above double precision, far below what counts. */
const ROUNDING = 1e-6
