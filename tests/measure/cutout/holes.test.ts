import { expect, test } from 'vitest'
import { findHoles } from '../../../src/measure/cutout/holes.ts'

const [WIDTH, HEIGHT] = [480, 600]
const EYES = 80
const MIDDLE = { x: 240, y: 210 }
const FACE = {
  leftEye: { x: 200, y: 210 },
  rightEye: { x: 280, y: 210 },
  midEyes: MIDDLE,
  eyesError: { across: 0, down: 0 },
  eyeDistance: EYES,
  axis: { x: 0, y: 1 },
  chin: { x: 240, y: 345 },
  chinError: 0,
}

type Color = readonly [number, number, number]
const PAPER: Color = [150, 152, 155]
const SKIN: Color = [190, 140, 115]
const CLOTH: Color = [60, 66, 90]

interface Patch {
  readonly x: number
  readonly y: number
  readonly radius: number
  readonly color?: Color
  /** Px from its full color to none. */
  readonly edge?: number
}

/** A head, and shoulders below it, before graded paper, with patches: of the paper as it is there, or of a color. */
function painted(patches: readonly Patch[]) {
  const data = new Uint8Array(3 * WIDTH * HEIGHT)
  for (let y = 0, to = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++) {
      const paper = PAPER.map((code) => code + (20 * x) / WIDTH)
      const isHead = Math.hypot((x - MIDDLE.x) / 100, (y - MIDDLE.y) / 140) < 1
      const isBody = y > 340 && Math.abs(x - MIDDLE.x) < Math.min(230, 60 + 2 * (y - 340))
      let color: readonly number[] = isHead ? SKIN : isBody ? CLOTH : paper
      for (const patch of patches) {
        const edge = patch.edge ?? 1
        const out = (Math.hypot(x - patch.x, y - patch.y) - patch.radius) / edge + 0.5
        const share = Math.min(1, Math.max(0, 1 - out))
        const beneath = color
        color = (patch.color ?? paper).map((code, c) => share * code + (1 - share) * (beneath[c] as number))
      }
      for (let c = 0; c < 3; c++) data[to++] = Math.round((color[c] as number) + (((x * 7 + y * 13) % 3) - 1))
    }
  }
  return { data, width: WIDTH, height: HEIGHT }
}

const holesIn = (...patches: Patch[]) => findHoles(painted(patches), FACE)?.boxes.length

test.each([
  ['on a cheek', { x: 255, y: 260, radius: 6 }],
  ['on a forehead, its edge two px wide', { x: 240, y: 150, radius: 8, edge: 2 }],
  ['in a collar', { x: 235, y: 420, radius: 12 }],
  ['in the chest beside the middle', { x: 330, y: 560, radius: 10 }],
])('a hole %s is found where it is', (_, patch) => {
  const holes = findHoles(painted([patch]), FACE)
  expect(holes?.boxes).toHaveLength(1)
  const [box] = holes?.boxes ?? []
  if (!box) throw new Error('No box.')
  expect(Math.abs((box.x + box.width / 2) * WIDTH - patch.x)).toBeLessThan(1.5)
  expect(Math.abs((box.y + box.height / 2) * HEIGHT - patch.y)).toBeLessThan(1.5)
  expect(Math.abs(box.width * WIDTH - 2 * patch.radius)).toBeLessThan(3)
  const areaPct = (100 * Math.PI * patch.radius ** 2) / (WIDTH * HEIGHT)
  expect((holes?.areaPct ?? 0) / areaPct).toBeGreaterThan(0.75)
  expect((holes?.areaPct ?? 0) / areaPct).toBeLessThan(1.1)
})

test('the largest comes first', () => {
  const holes = findHoles(
    painted([
      { x: 240, y: 150, radius: 5 },
      { x: 240, y: 500, radius: 9 },
    ]),
    FACE,
  )
  expect(holes?.boxes.map(({ y }) => y > 0.5)).toEqual([true, false])
})

// Each of these differs from the hole above it in one thing.
test.each([
  ['nothing', []],
  ['a patch of a slightly lighter color', [{ x: 235, y: 420, radius: 12, color: [171, 173, 176] }]],
  ['a shade that passes through the color of the paper', [{ x: 235, y: 450, radius: 16, edge: 30 }]],
  ['a speck', [{ x: 255, y: 260, radius: 2 }]],
  ['a light on a lens', [{ x: 275, y: 195, radius: 6 }]],
  ['a gap between arm and trunk', [{ x: 380, y: 520, radius: 10 }]],
  ['a gap in curls at the edge of the hair', [{ x: 240, y: 88, radius: 6 }]],
  ['a gap that is open to the backdrop', [{ x: 240, y: 70, radius: 40 }]],
  [
    'a hole in cloth of nearly the same color, which is hardly seen',
    [
      { x: 235, y: 430, radius: 30, color: [176, 178, 181] },
      { x: 235, y: 430, radius: 12 },
    ],
  ],
] as const)('%s is no hole', (_, patches) => {
  expect(holesIn(...(patches as readonly Patch[]))).toBe(0)
})

test('before an uneven backdrop nothing is told', () => {
  const picture = painted([{ x: 255, y: 260, radius: 8 }])
  for (let i = 0; i < WIDTH * HEIGHT; i++) {
    const by = 12 * Math.sin((i % WIDTH) / 9) * Math.sin(Math.floor(i / WIDTH) / 11)
    for (let c = 0; c < 3; c++) picture.data[3 * i + c] = (picture.data[3 * i + c] as number) + by
  }
  expect(findHoles(picture, FACE)).toBeNull()
})

test('where the face passes for backdrop nothing is told', () => {
  expect(findHoles(painted([{ x: 240, y: 210, radius: 75 }]), FACE)).toBeDefined()
  const blank = painted([])
  for (let i = 0; i < blank.data.length; i++) blank.data[i] = PAPER[i % 3] as number
  expect(findHoles(blank, FACE)).toBeNull()
})
