import { expect, test } from 'vitest'
import { measureFringe } from '../../../src/measure/cutout/fringe.ts'

const [WIDTH, HEIGHT, SCALE] = [900, 900, 3]
const [MIDDLE, RADIUS] = [450.5, 270.2]
const EYES = 200

type Color = readonly [number, number, number]
const PAPER: Color = [150, 152, 155]
const CLOTH: Color = [70, 60, 50]

/** A disc for a sitter, its edge blended over a pixel, with a line of a color around it over a share of its outline. */
function painted(line: { color: Color; widthPx: number; share: number } | null, cloth = CLOTH) {
  const data = new Uint8Array(3 * WIDTH * HEIGHT)
  for (let y = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++) {
      const out = Math.hypot(x - MIDDLE, y - MIDDLE) - RADIUS
      const turn = (Math.atan2(y - MIDDLE, x - MIDDLE) / Math.PI + 1) / 2
      const widthPx = line && turn < line.share ? line.widthPx : 0
      const sitter = Math.max(0, Math.min(1, 0.5 - out))
      const fringe = Math.max(0, Math.min(1, 0.5 - out + widthPx)) - sitter
      for (let c = 0; c < 3; c++) {
        const color = sitter * (cloth[c] as number) + fringe * ((line?.color ?? PAPER)[c] as number)
        data[3 * (y * WIDTH + x) + c] = Math.round(color + (1 - sitter - fringe) * (PAPER[c] as number))
      }
    }
  }
  return { data, width: WIDTH, height: HEIGHT }
}

/** The silhouette as a copy of a third of the size shows it. */
function silhouette(reach: number) {
  const [width, height] = [WIDTH / SCALE, HEIGHT / SCALE]
  const data = Uint8Array.from({ length: width * height }, (_, i) => {
    const [x, y] = [((i % width) + 0.5) * SCALE, (Math.floor(i / width) + 0.5) * SCALE]
    return Number(Math.hypot(x - MIDDLE, y - MIDDLE) < RADIUS + reach)
  })
  return { data, width, height }
}

function read(picture: ReturnType<typeof painted>, reach = 0, eyes = EYES) {
  const mask = silhouette(reach)
  return measureFringe(
    picture,
    mask,
    mask.data.map((inside) => 1 - inside),
    eyes / SCALE,
  )
}

test.each([
  ['light', [235, 236, 240], 2, 1],
  ['light', [235, 236, 240], 4, 0.5],
  ['dark', [20, 18, 15], 3, 0.75],
] as const)('a %s line of %s, %d px wide, along %d of the outline', (tone, color, widthPx, share) => {
  for (const reach of [-3, 0, 4]) {
    const found = read(painted({ color, widthPx, share }), reach)
    expect(found?.tone).toBe(tone)
    expect(Math.abs((found?.outlinePct as number) - 100 * share)).toBeLessThan(4)
    expect(found?.contrastL).toBeGreaterThan(tone === 'light' ? 15 : 10)
  }
})

// Which part of it a pixel takes in varies from place to place, and so does its color.
test('a line of one pixel is found along most of the outline', () => {
  expect(read(painted({ color: [235, 236, 240], widthPx: 1, share: 1 }))?.outlinePct).toBeGreaterThan(60)
})

test('an edge that blends into the backdrop has none, nor has a line of a color between both', () => {
  expect(read(painted(null))).toEqual({ outlinePct: 0, tone: null, contrastL: null })
  expect(read(painted({ color: [110, 106, 102], widthPx: 3, share: 1 }))?.outlinePct).toBe(0)
  expect(read(painted(null, [250, 250, 250]))?.outlinePct).toBe(0)
})

test('a rim of many colors is none of one', () => {
  const picture = painted({ color: [235, 236, 240], widthPx: 2, share: 1 })
  for (let i = 0; i < WIDTH * HEIGHT; i++) {
    const [r] = picture.data.subarray(3 * i, 3 * i + 3)
    if ((r as number) < 200) continue
    const turn = Math.atan2(Math.floor(i / WIDTH) - MIDDLE, (i % WIDTH) - MIDDLE)
    for (const [c, phase] of [0, 2, 4].entries())
      picture.data[3 * i + c] = 210 + 45 * Math.sin(3 * turn + phase)
  }
  expect(read(picture)?.outlinePct).toBeLessThan(40)
})

test('a sitter who is too small is not read', () => {
  expect(read(painted(null), 0, 49)).toBeNull()
})
