import { atLeast, listed, quantity } from '../../text/quantity.ts'
import { stopsBetween, stopText } from '../judging/stops.ts'
import type { Miss } from './set-misses.ts'
import type { TraitId } from './set-traits.ts'

/** What a portrait misses of its set, in words. */
export interface MissWords {
  /** For a column: "backdrop 88 L*, not 96 L*". */
  readonly short: string
  /** For a sentence: "the backdrop is 8 L* darker (88 L* against 96 L*)". */
  readonly long: string
  /** What to do about it, as a sentence; null for what a crop does. */
  readonly step: string | null
}

/**
 * The misses in their order, the two axes of a tint as one color.
 * @param others what is compared with: "the set", "the gallery", "the others"
 */
export function wordsFor(misses: readonly Miss[], others: string): MissWords[] {
  return misses.flatMap((miss) => {
    const of = TINTS[miss.trait.id]?.of
    if (!of) return [missWords(miss, others)]
    const tints = misses.filter(({ trait }) => TINTS[trait.id]?.of === of)
    return miss === tints[0] ? [tintWords(tints, others)] : []
  })
}

function missWords(miss: Miss, others: string): MissWords {
  const { value, set, trait } = miss
  const isMore = value > set.median
  // Of the numbers as they are written, so that they add up.
  const by = Math.abs(Number(quantity(value, '')) - Number(quantity(set.median, '')))
  const compared = (comparative: string, unit: string, what = '') =>
    `${comparative} (${quantity(value, unit)}${what} against ${quantity(set.median, unit)})`
  const short = (noun: string, unit: string) =>
    `${noun} ${quantity(value, unit)}, not ${quantity(set.median, unit)}`
  switch (trait.id) {
    case 'headroom':
      return {
        short: short('headroom', ' %'),
        long: `the space above the head is ${compared(isMore ? 'larger' : 'smaller', ' %', ' of the frame height')}`,
        step: null,
      }
    case 'eye-line':
      return {
        short: short('eyes at', ' %'),
        long: `the eyes are ${compared(isMore ? 'lower' : 'higher', ' %', ' from the top')}`,
        step: null,
      }
    case 'head-height':
      return {
        short: short('head', ' %'),
        long: `the head is ${compared(isMore ? 'larger' : 'smaller', ' %', ' of the frame height')}`,
        step: null,
      }
    case 'face-height':
      return {
        short: short('face', ' %'),
        long: `the face is ${compared(isMore ? 'larger' : 'smaller', ' %', ' of the frame height from eyes to chin')}`,
        step: null,
      }
    case 'centering':
      return {
        short: `face ${fromCenter(value)}`,
        long: `the face is ${fromCenter(value)} (in ${others} ${fromCenter(set.median)})`,
        step: null,
      }
    case 'background-lightness':
      return {
        short: short('backdrop', ' L*'),
        long: `the backdrop is ${quantity(by, ' L*')} ${compared(isMore ? 'lighter' : 'darker', ' L*')}`,
        step: `${isMore ? 'Darken' : 'Lighten'} the backdrop by about ${stops(stopsBetween(value, set.median))} to match ${others}.`,
      }
    case 'background-unevenness':
      return {
        short: short('backdrop uneven by', ' L*'),
        long: `the backdrop is ${compared(isMore ? 'less evenly lit' : 'more evenly lit', ' L*', ' from dark to light')}`,
        step: 'Even the backdrop out in retouching, or light it evenly.',
      }
    case 'key-light':
      return {
        short: `left cheek ${cheek(value)}`,
        long: `the left cheek is ${cheek(value)} (in ${others} ${cheek(set.median)})`,
        step: relit(miss),
      }
    case 'skin-texture':
      return {
        short: `skin texture ${texture(value)}, not ${texture(set.median)}`,
        long: `the file has less fine texture on the skin, its sharpness allowed for (${texture(value)} against ${texture(set.median)}), as after strong smoothing`,
        step: `Smooth the skin less in the retouch, to match ${others}.`,
      }
    case 'background-tint-a':
    case 'background-tint-b':
    case 'skin-tint-a':
    case 'skin-tint-b':
      return tintWords([miss], others)
  }
}

function relit({ value, set }: Miss): string {
  // Light from the other side can't be painted.
  if (value * set.median < 0) return 'Choose a frame lit like the others, or shoot again.'
  const by = value - set.median
  return `Choose a frame lit like the others, or ${by > 0 ? 'darken' : 'lighten'} the left cheek by about ${stops(by)} against the right.`
}

function stops(by: number): string {
  return stopText(atLeast(Math.abs(by), ''))
}

function fromCenter(offPct: number): string {
  const size = quantity(Math.abs(offPct), ' %')
  return size === '0 %' ? 'at the center' : `${size} ${offPct < 0 ? 'left' : 'right'} of center`
}

function cheek(brighterBy: number): string {
  const size = quantity(Math.abs(brighterBy), '')
  if (size === '0') return 'as bright as the right'
  return `${stopText(size)} ${brighterBy < 0 ? 'darker' : 'brighter'} than the right`
}

/** A contrast in percent, told by its logarithm; to two digits, since all are below 1. */
function texture(doublings: number): string {
  return `${Number((2 ** doublings).toPrecision(2))} %`
}

/** Both ends of the axes of a tint, the positive one first. @source CIE 15:2004: +a* is red and +b* yellow. */
const TINTS: {
  readonly [id in TraitId]?: {
    readonly of: 'backdrop' | 'skin'
    readonly axis: string
    readonly ends: readonly [string, string]
  }
} = {
  'background-tint-a': { of: 'backdrop', axis: 'a*', ends: ['redder', 'greener'] },
  'background-tint-b': { of: 'backdrop', axis: 'b*', ends: ['yellower', 'bluer'] },
  'skin-tint-a': { of: 'skin', axis: 'a*', ends: ['redder', 'greener'] },
  'skin-tint-b': { of: 'skin', axis: 'b*', ends: ['yellower', 'bluer'] },
}

/** Times the least spread that counts from which on a tint is far off. @choice plainly another color, no source. */
const FAR = 25

function tintWords(tints: readonly Miss[], others: string): MissWords {
  const parts = tints.flatMap(({ trait, value, set }) => {
    const tint = TINTS[trait.id]
    if (!tint) return []
    const { axis, ends } = tint
    const [off, size] = [value - set.median, quantity(Math.abs(value - set.median), '')]
    const [found, wanted] = off > 0 ? ends : [ends[1], ends[0]]
    return {
      found,
      number: `${axis} ${off > 0 ? '+' : '-'}${size}`,
      wanted: `${wanted} by ${size} ${axis}`,
      isFar: Math.abs(off) >= FAR * trait.least,
    }
  })
  const far = parts.some(({ isFar }) => isFar) ? 'far ' : ''
  const color = `${far}${listed(parts.map(({ found }) => found))}`
  const numbers = `(${parts.map(({ number }) => number).join(', ')})`
  const wanted = listed(parts.map((part) => part.wanted))
  if (tints.some(({ trait }) => TINTS[trait.id]?.of === 'skin'))
    return {
      short: `skin balanced ${color} ${numbers}`,
      long: `skin is balanced ${color} ${numbers}, its lightness allowed for`,
      step: `Balance skin ${wanted}, to match ${others}: check the white balance, and masks if the backdrop is right.`,
    }
  return {
    short: `backdrop ${color} ${numbers}`,
    long: `the backdrop is ${color} ${numbers}`,
    step: `Make the backdrop ${wanted}, by white balance or in the backdrop alone, to match ${others}.`,
  }
}
