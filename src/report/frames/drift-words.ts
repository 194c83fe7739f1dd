import { hueWord } from '../../rules/backdrop/hue.ts'
import { stopText } from '../../rules/judging/stops.ts'
import type { Drift } from '../../session/drift.ts'
import { quantity } from '../../text/quantity.ts'

/**
 * A lasting change in one sentence: "Since 14:05 the backdrop is 0.3 stop darker."
 * @param time when it began, as it is to be read
 */
export function driftSentence(drift: Drift, time: string): string {
  return `Since ${time} ${CHANGES[drift.trait](drift)}.`
}

const CHANGES: Readonly<Record<Drift['trait'], (drift: Drift) => string>> = {
  'backdrop-lightness': ({ shift }) => `the backdrop is ${stops(shift)} ${shift < 0 ? 'darker' : 'lighter'}`,
  'backdrop-tint': ({ shift, hueDeg = 0 }) =>
    `the backdrop is ${quantity(shift, ' ΔE*ab')} more ${hueWord(hueDeg)}`,
  'backdrop-unevenness': ({ shift }) =>
    `the backdrop is ${shift > 0 ? 'less' : 'more'} even by ${quantity(Math.abs(shift), ' L*')}`,
  'key-ratio': ({ shift, side }) =>
    `the face has ${stops(shift)} ${shift > 0 ? 'more' : 'less'} contrast between the cheeks, with the key light from the ${side}`,
  'head-size': ({ shift }) => {
    const pct = 100 * (Math.exp(shift / 100) - 1)
    return `heads are ${quantity(Math.abs(pct), ' %')} ${pct > 0 ? 'larger' : 'smaller'} in the frame`
  },
  'eye-line': ({ shift }) =>
    `the eyes are ${quantity(Math.abs(shift), ' %')} of the frame ${shift > 0 ? 'lower' : 'higher'}`,
}

function stops(shift: number): string {
  return stopText(quantity(Math.abs(shift), ''))
}
