import { expect, test } from 'vitest'
import { codesOf, forgetStrips, halved, outerPart, stripKernels } from '../../../src/kernels/strips/sides.ts'
import { seeded } from '../../random.ts'

const next = seeded(5)

/** Where a place of a side lies in the picture: positions run clockwise round the frame, depths inward. */
const PLACES = {
  top: (along: number, inward: number) => [along, inward],
  right: (along: number, inward: number, width: number) => [width - 1 - inward, along],
  bottom: (along: number, inward: number, width: number, height: number) => [
    width - 1 - along,
    height - 1 - inward,
  ],
  left: (along: number, inward: number, _: number, height: number) => [inward, height - 1 - along],
} as const

// To the last bit; sizes that are no multiples of sixteen, and less.
test.each(
  [
    [37, 50, 9, false],
    [64, 32, 16, true],
    [7, 5, 3, false],
  ].flatMap(([width, height, depth, isGray]) =>
    (['top', 'right', 'bottom', 'left'] as const).map((side) => ({ width, height, depth, isGray, side })),
  ) as { width: number; height: number; depth: number; isGray: boolean; side: keyof typeof PLACES }[],
)('the $side $depth px of $width x $height, gray: $isGray', ({ width, height, depth, isGray, side }) => {
  const channels = isGray ? 1 : 3
  const data = Uint8Array.from({ length: channels * width * height }, () => 256 * next())
  const length = side === 'top' || side === 'bottom' ? width : height
  forgetStrips()
  const strip = outerPart({ data, width, height, isGray }, side, depth)
  expect([strip.length, strip.depth]).toEqual([length, depth])
  const places = Array.from({ length: depth * length }, (_, i) =>
    PLACES[side](i % length, Math.floor(i / length), width, height),
  )
  const pixels = places.map(([x, y]) =>
    [0, 1, 2].map(
      (c) => data[channels * ((y as number) * width + (x as number)) + (isGray ? 0 : c)] as number,
    ),
  )
  expect(codesOf(strip).map((plane) => [...plane])).toEqual(
    [0, 1, 2].map((c) => pixels.map((pixel) => pixel[c])),
  )
  expect([...stripKernels.memory.shorts(strip.luma, length * depth)]).toEqual(
    pixels.map(([r, g, b]) => Math.floor((27 * (r as number) + 92 * (g as number) + 9 * (b as number)) / 8)),
  )
})

// To the last bit; lengths that are no multiples of sixteen, and odd.
test.each([
  [37, 9],
  [64, 16],
  [5, 3],
])('a strip of %i x %i px at half the size', (length, depth) => {
  const { memory } = stripKernels
  forgetStrips()
  const lumas = Int16Array.from({ length: length * depth }, () => 4080 * next())
  const small = halved({ length, depth, luma: memory.put(lumas) })
  expect([small.length, small.depth]).toEqual([length >> 1, depth >> 1])
  const at = (x: number, y: number) => lumas[y * length + x] as number
  expect([...memory.shorts(small.luma, small.length * small.depth)]).toEqual(
    Array.from({ length: small.length * small.depth }, (_, i) => {
      const [x, y] = [2 * (i % small.length), 2 * Math.floor(i / small.length)]
      return Math.floor((at(x, y) + at(x + 1, y) + at(x, y + 1) + at(x + 1, y + 1) + 2) / 4)
    }),
  )
})
