import { expect, test } from 'vitest'
import { smoothPlane } from '../../src/imaging/smoothing.ts'
import { seeded } from '../random.ts'

test('each pixel is the mean of the square of five around it, of what of it lies in the frame', () => {
  const [width, height] = [13, 11]
  const random = seeded(23)
  const plane = Float32Array.from({ length: width * height }, () => 100 * random())
  const smooth = smoothPlane(plane, width, height)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let [n, sum] = [0, 0]
      for (let row = Math.max(0, y - 2); row <= Math.min(height - 1, y + 2); row++) {
        for (let column = Math.max(0, x - 2); column <= Math.min(width - 1, x + 2); column++) {
          n++
          sum += plane[row * width + column] as number
        }
      }
      expect(smooth[y * width + x]).toBeCloseTo(sum / n, 4)
    }
  }
})
