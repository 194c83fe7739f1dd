import type { Rect } from '../../src/framing/room.ts'
import type { Asked, Place } from './cases.ts'

type Random = () => number
const between = (random: Random, low: number, high: number) => low + (high - low) * random()
const whole = (random: Random, low: number, high: number) => Math.floor(between(random, low, high + 1))
const often = (random: Random, share: number) => random() < share

/** A sitter somewhere in a frame; every other one at whole px, where limits are met exactly. */
export function randomPlace(random: Random, least: number, most: number): Place {
  const [width, height] = [whole(random, least, most), whole(random, least, most)]
  const exact = often(random, 0.5)
  const at = (low: number, high: number) =>
    exact ? Math.round(between(random, low, high)) : between(random, low, high)
  const crown = at(0, 0.3 * height)
  const chin = Math.min(height, crown + at(0.2 * height, 0.7 * height))
  return {
    width,
    height,
    crown,
    chin,
    eyeY: at(crown + 0.4 * (chin - crown), crown + 0.6 * (chin - crown)),
    eyeX: at(0.3 * width, 0.7 * width),
    faceWidth: between(random, 0.1, 0.4) * width,
  }
}

/** Limits around a likely value: wide, narrow or of no width at all, and with one end alone. */
function randomBand(random: Random, low: number, high: number): unknown {
  const target = Math.round(between(random, low, high))
  const width = often(random, 0.1) ? 0 : between(random, 0, high - low)
  if (often(random, 0.15)) return { min: target - width }
  if (often(random, 0.15)) return { max: target + width }
  return often(random, 0.5)
    ? { target, tolerance: width / 2 }
    : { min: target - width / 2, max: target + width / 2 }
}

function randomShape(random: Random, { width, height }: Place): Asked {
  const ratios = ['4:5', '1:1', '2:3', '3:2', '35:45', '5:7', '8.5:11', '16:9']
  const ratio = ratios[whole(random, 0, ratios.length - 1)]
  const some = () => whole(random, 3, Math.round(0.8 * Math.min(width, height)))
  switch (whole(random, 0, 6)) {
    case 0:
      return { 'aspect-ratio': ratio }
    case 1:
      return { 'pixel-size': { width: some(), height: some() } }
    case 2:
      return { 'pixel-size': { [often(random, 0.5) ? 'long-edge' : 'short-edge']: { min: some() } } }
    case 3:
      return { 'aspect-ratio': ratio, 'pixel-size': { 'long-edge': { min: some() } } }
    case 4:
      return { 'pixel-size': { width: { min: 4, max: 4 + some() }, height: { min: 5, max: 5 + some() } } }
    case 5:
      return { 'aspect-ratio': ratio, 'pixel-size': { 'short-edge': { max: some() } } }
    default:
      return {}
  }
}

export function randomAsk(random: Random, place: Place): Asked {
  const asked: Record<string, unknown> = { ...randomShape(random, place) }
  if (often(random, 0.6)) asked.headroom = randomBand(random, often(random, 0.1) ? -10 : 0, 25)
  if (often(random, 0.6)) asked['eye-line'] = randomBand(random, 25, 50)
  if (often(random, 0.6)) asked['head-height'] = randomBand(random, 30, 75)
  if (often(random, 0.6))
    asked.centering = often(random, 0.7)
      ? { max: between(random, 0, 8) }
      : { target: whole(random, -5, 5), tolerance: between(random, 0, 3) }
  return asked
}

/** Regions at the edges of the frame, as a light stand or the end of the paper leave them. */
export function randomIntrusions(random: Random, { width, height }: Place): Rect[] {
  return Array.from({ length: whole(random, 1, 3) }, () => {
    const [across, down] = [whole(random, 1, Math.ceil(width / 4)), whole(random, 1, Math.ceil(height / 4))]
    const [x, y] = [whole(random, 0, width - across), whole(random, 0, height - down)]
    const [left, top] = [
      [0, y],
      [width - across, y],
      [x, 0],
      [x, height - down],
    ][whole(random, 0, 3)] as [number, number]
    return { left, top, right: left + across, bottom: top + down }
  })
}
