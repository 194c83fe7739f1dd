import { type Linear, labToLinear, rgbToLinear } from './color.ts'
import type { Backdrop } from './frame.ts'
import { wallColor } from './wall.ts'

/** Linear light of the backdrop at a place in the frame; u and v run from 0 to 1 across width and height. */
export type BackdropLight = (u: number, v: number) => Linear

/** The backdrop without noise and without the sitter's shadow. */
export function backdropLight(backdrop: Backdrop, aspect: number): BackdropLight {
  const { color, wall } = backdrop
  const base = typeof color === 'number' ? rgbToLinear([color, color, color]) : labToLinear(color)
  const even =
    backdrop.fallOff === undefined &&
    backdrop.vignetteStops === undefined &&
    backdrop.end === undefined &&
    (wall === undefined || wall === 'paper')
  if (even) return () => base
  const loss = lossStops(backdrop, aspect)
  return (u, v) => {
    const gain = 2 ** -loss(u, v)
    const paint = wall === undefined || wall === 'paper' ? base : wallColor(wall, base, u, v)
    return [paint[0] * gain, paint[1] * gain, paint[2] * gain]
  }
}

function lossStops(
  { fallOff, vignetteStops = 0, end }: Backdrop,
  aspect: number,
): (u: number, v: number) => number {
  const turn = ((fallOff?.towardsDeg ?? 0) * Math.PI) / 180
  const [dx, dy] = [Math.cos(turn), Math.sin(turn)]
  // From the edge or corner where the light comes in to the one opposite.
  const reach = (Math.abs(dx) + Math.abs(dy) / aspect) / 2
  const corner = 0.25 + 0.25 / aspect ** 2
  return (u, v) => {
    const x = u - 0.5
    const y = (v - 0.5) / aspect
    let stops = end !== undefined && (end.side === 'left' ? u : 1 - u) < end.share ? end.wallStops : 0
    if (fallOff !== undefined) {
      const across = ((x * dx + y * dy) / reach + 1) / 2
      stops += fallOff.stops * Math.max(0, (across - fallOff.from) / (1 - fallOff.from))
    }
    return stops + (vignetteStops * (x * x + y * y)) / corner
  }
}
