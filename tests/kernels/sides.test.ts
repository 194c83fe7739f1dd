import { expect, test } from 'vitest'
import { outerPart } from '../../src/kernels/sides.ts'
import { seeded } from '../random.ts'

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
  const { planes, luma } = outerPart({ data, width, height, isGray }, side, depth)
  const places = Array.from({ length: depth * length }, (_, i) =>
    PLACES[side](i % length, Math.floor(i / length), width, height),
  )
  const pixels = places.map(([x, y]) =>
    [0, 1, 2].map(
      (c) => data[channels * ((y as number) * width + (x as number)) + (isGray ? 0 : c)] as number,
    ),
  )
  expect(planes.map((plane) => [...plane])).toEqual([0, 1, 2].map((c) => pixels.map((pixel) => pixel[c])))
  expect([...luma]).toEqual(
    pixels.map(([r, g, b]) => Math.floor((27 * (r as number) + 92 * (g as number) + 9 * (b as number)) / 8)),
  )
})
