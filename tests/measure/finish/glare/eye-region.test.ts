import { beforeAll, expect, test } from 'vitest'
import { pixelsInside } from '../../../../src/imaging/polygon.ts'
import { eyeDistanceOf, eyeRegions } from '../../../../src/measure/finish/glare/eye-region.ts'
import { HEIGHT, sitterFace, WIDTH } from '../../face/sitter-face.ts'

let sitter: Awaited<ReturnType<typeof sitterFace>>
beforeAll(async () => {
  sitter = await sitterFace()
})

test('each region holds its eye, the left in the frame first', () => {
  const regions = eyeRegions(sitter.located)
  for (const [eye, { lens, opening, iris }] of regions.entries()) {
    const [x, y] = sitter.located.irises[eye as 0 | 1]
    expect(iris).toMatchObject({ x, y })
    const center = Math.floor(y) * WIDTH + Math.floor(x)
    expect(pixelsInside(opening, WIDTH, HEIGHT)).toContain(center)
    expect(pixelsInside(lens, WIDTH, HEIGHT)).toContain(center)
  }
  expect(regions[0].iris.x).toBeLessThan(regions[1].iris.x)
})

// An iris is 11.7 mm across, the pupils 63 to 64 mm apart in the mean (from memory).
test('an iris is 11.7 mm across when the pupils are 63.5 mm apart', () => {
  const distance = eyeDistanceOf(sitter.located)
  const [{ iris }] = eyeRegions(sitter.located)
  expect(Math.abs((2 * iris.radius * 63.5) / distance - 11.7)).toBeLessThan(0.1)
})

test('the far eye of a turned face ends by its outer corner, the near one stays as it is', () => {
  const [left, right] = eyeRegions(sitter.located)
  // Yaw is negative when the face turns to the right of the frame.
  const [near, far] = eyeRegions({ ...sitter.located, yaw: (-20 * Math.PI) / 180 })
  const reach = (outline: typeof left.lens) => Math.max(...outline.map(([x]) => x))
  expect(near.lens).toEqual(left.lens)
  expect(reach(far.lens)).toBeLessThan(reach(right.lens))
})
