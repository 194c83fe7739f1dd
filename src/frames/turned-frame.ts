import { placeOn, type Turned } from '../framing/turned.ts'
import type { Box, Measurements } from '../measure/schema/measurements.ts'
import { moved, type Point } from './moved.ts'

/**
 * What a frame would measure once it is turned, on its canvas. The crown stays the same hair: of a round head turned by 5 degrees
 * another hair would be higher, by 0.4 % of the head's radius.
 */
export function turnedFrame(measured: Measurements, turned: Turned): Measurements {
  const { picture, canvas, deg } = turned
  const point = ({ x, y }: Point): Point => {
    const place = placeOn(turned, { x: x * picture.widthPx, y: y * picture.heightPx })
    return { x: place.x / canvas.widthPx, y: place.y / canvas.heightPx }
  }
  const box = ({ x, y, width, height }: Box): Box => {
    const corners = [0, width].flatMap((right) =>
      [0, height].map((low) => point({ x: x + right, y: y + low })),
    )
    const [xs, ys] = [corners.map((corner) => corner.x), corners.map((corner) => corner.y)]
    const [left, top] = [Math.min(...xs), Math.min(...ys)]
    return { x: left, y: top, width: Math.max(...xs) - left, height: Math.max(...ys) - top }
  }
  const [wider, higher] = [picture.widthPx / canvas.widthPx, picture.heightPx / canvas.heightPx]
  return moved(measured, { size: canvas, point, box, wider, higher, turnDeg: deg })
}
