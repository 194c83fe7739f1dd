import type { LumaStrip } from '../../kernels/strips/sides.ts'
import type { FillLine } from './fill-line.ts'

/** What the canvas did when the picture was turned: it grew to hold all of it, or kept its size. */
export type Canvas = 'grown' | 'kept'
export const CANVASES: readonly Canvas[] = ['grown', 'kept']

/** A turned picture: the tangent of its angle, positive clockwise, and what the canvas did. */
export interface Turned {
  readonly slope: number
  readonly canvas: Canvas
}

/**
 * Where the picture begins along a side of its canvas, turned by an angle about the middle.
 * @param strip the outer part along that side
 * @param across length of the canvas across that side, px
 * @source plane geometry: a rectangle of W x H turned by a fills a canvas of W cos a + H sin a by W sin a + H cos a
 */
export function pictureLine(
  { length }: Pick<LumaStrip, 'length'>,
  across: number,
  { slope, canvas }: Turned,
): FillLine {
  const angle = Math.atan(Math.abs(slope))
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const picture = canvas === 'kept' ? across : (across * cos - length * sin) / Math.cos(2 * angle)
  const middle = across / 2 - picture / (2 * cos)
  return { start: middle - (slope * length) / 2, slope }
}
