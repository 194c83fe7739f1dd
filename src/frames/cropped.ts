import type { Size } from '../framing/ask.ts'
import type { CropBox } from '../framing/crop-box.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import { moved } from './moved.ts'

/** What a crop of a picture would measure, at the size that it is delivered at. */
export function cropped(measured: Measurements, crop: CropBox, delivered: Size): Measurements {
  const { widthPx, heightPx } = measured
  if (!widthPx || !heightPx) return measured
  const [wider, higher] = [widthPx / crop.widthPx, heightPx / crop.heightPx]
  const point = ({ x, y }: { readonly x: number; readonly y: number }) => ({
    x: x * wider - crop.leftPx / crop.widthPx,
    y: y * higher - crop.topPx / crop.heightPx,
  })
  return moved(measured, {
    ...{ size: delivered, wider, higher, turnDeg: 0, point },
    box: (at) => ({ ...point(at), width: at.width * wider, height: at.height * higher }),
  })
}
