import { describe, expect, test } from 'vitest'
import { findBackdrop } from '../../../src/measure/backdrop/backdrop.ts'
import type { FaceGeometry } from '../../../src/measure/face/face-axes.ts'
import { readCrown } from '../../../src/measure/head/crown-witnesses.ts'
import { frameWindow, headWindow } from '../../../src/measure/person/person-mask.ts'
import { type Paint, personMask, scene, sitter, sitterGeometry } from '../scene.ts'

const WIDTH = 320
const HEIGHT = 400
const PAPER: Paint = () => [244, 244, 244]

type Shape = (x: number, y: number) => boolean

interface Change {
  readonly hair?: Paint
  readonly backdrop?: Paint
  readonly geometry?: Partial<FaceGeometry>
  readonly plain?: boolean
  /** What the network sees at the head, and in the whole frame, where that is not the sitter. */
  readonly atHead?: Shape
  readonly inFrame?: Shape
  readonly turnDeg?: number
}

async function crown(at: number, change: Change = {}) {
  const isSitter = sitter(at)
  const { hair = () => [60, 45, 40], backdrop = PAPER, plain = true, turnDeg = 0 } = change
  const { lab } = scene(WIDTH, HEIGHT, (x, y) => (isSitter(x, y) ? hair(x, y) : backdrop(x, y)))
  const face = { ...sitterGeometry(at, WIDTH, HEIGHT), ...change.geometry }
  const mask = (shape: Shape, window: Parameters<typeof personMask>[3]) =>
    personMask(shape, WIDTH, HEIGHT, window)
  const seen = {
    head: mask(change.atHead ?? isSitter, headWindow(face)),
    frame: async () => mask(change.inFrame ?? isSitter, frameWindow({ width: WIDTH, height: HEIGHT })),
  }
  const read = await readCrown(findBackdrop(lab, WIDTH, HEIGHT), plain, seen, face, turnDeg)
  return { ...read, share: read.crown && read.crown.y / HEIGHT, eyes: read.error / face.eyeDistance }
}

describe('before a plain backdrop', () => {
  test('silhouette and network agree: the crown is sure, its error small', async () => {
    const read = await crown(0.1)
    expect(read.share).toBeCloseTo(0.1, 2)
    expect(read.eyes).toBeLessThan(0.06)
    expect(read.doubts).toEqual([])
  })

  test('where they are far apart neither is believed', async () => {
    const arch: Shape = (x, y) => sitter(0.1)(x, y) && y > 0.14
    const read = await crown(0.1, { atHead: arch })
    expect(read.doubts).toEqual(['crown-merges-with-backdrop'])
    expect(read.eyes).toBeGreaterThan(0.17)
  })

  test('the crown is between two that are somewhat apart, nearer to the silhouette, and the error tells how far', async () => {
    const read = await crown(0.1, { atHead: (x, y) => sitter(0.1)(x, y) && y > 0.11 })
    expect(read.share).toBeGreaterThan(0.1)
    expect(read.share).toBeLessThan(0.106)
    expect(read.error).toBeGreaterThan(0.009 * HEIGHT)
    expect(read.doubts).toEqual([])
  })

  test('hair that fades into the paper leaves it to the network, twice asked', async () => {
    const fading: Paint = (_, y) => {
      const code = Math.round(244 - Math.min(60, Math.max(0, (y - 0.1) * 500)))
      return [code, code, code]
    }
    const read = await crown(0.1, { hair: fading })
    expect(read.share).toBeCloseTo(0.1, 2)
    expect(read.doubts).toEqual([])
    const lost = await crown(0.1, { hair: fading, inFrame: (x, y) => sitter(0.1)(x, y) && y > 0.16 })
    expect(lost.doubts).toEqual(['crown-merges-with-backdrop'])
  })
})

describe('what is over the head of a sitter', () => {
  // From the shoulder up beside the head and over it, with backdrop between: a raised arm, a cable, a hoop.
  const over =
    (top: number): Paint =>
    (x, y) =>
      x > 0.4 && x < 0.82 && y >= top && (y < top + 0.04 || x > 0.78) ? [60, 45, 40] : [244, 244, 244]

  test.each([
    ['reaches', 0],
    ['stays clear of', 0.05],
  ])('and %s the edge is no crown', async (_, top) => {
    const read = await crown(0.15, { backdrop: over(top) })
    expect(read.share).toBeCloseTo(0.15, 2)
    expect(read.doubts).toEqual([])
  })
})

describe('before a place', () => {
  const stripes: Paint = (x) => (Math.floor(x * 16) % 2 === 0 ? [230, 230, 230] : [90, 110, 140])
  const place = { plain: false, backdrop: stripes }

  test('two readings of the network that agree are told with a larger error', async () => {
    const read = await crown(0.1, place)
    expect(read.share).toBeCloseTo(0.1, 2)
    expect(read.eyes).toBeGreaterThan(0.06)
    expect(read.eyes).toBeLessThan(0.1)
    expect(read.doubts).toEqual([])
  })

  test('two that differ are in doubt', async () => {
    const read = await crown(0.1, { ...place, inFrame: (x, y) => sitter(0.1)(x, y) && y > 0.16 })
    expect(read.doubts).toEqual(['crown-unclear'])
  })

  test('so is a head that only one of them finds, and one that neither does', async () => {
    const nobody: Shape = () => false
    expect((await crown(0.1, { ...place, inFrame: nobody })).doubts).toEqual(['crown-unclear'])
    const none = await crown(0.1, { ...place, inFrame: nobody, atHead: nobody })
    expect(none).toMatchObject({ crown: null, doubts: ['crown-unclear'] })
  })

  test('a lamp beside the head that passes for a part of it is none of it', async () => {
    const lamp: Shape = (x, y) => sitter(0.2)(x, y) || (x > 0.63 && x < 0.67 && y > 0.1 && y < 0.45)
    const read = await crown(0.2, { ...place, atHead: lamp, inFrame: lamp })
    expect(read.doubts).toContain('crown-implausible')
  })
})

describe('the proportions of a head', () => {
  test.each([
    ['too near the eyes for a skull', { geometry: { eyeDistance: 100 } }],
    ['too far from the eyes even for a hat', { geometry: { eyeDistance: 12 } }],
  ])('refuse a crown %s', async (_, change) => {
    expect((await crown(0.1, change)).doubts).toContain('crown-implausible')
  })

  test('a head that the frame cuts is low for no other reason', async () => {
    expect((await crown(-0.03)).doubts).toEqual(['crown-out-of-frame'])
    // Cut above the brows: too little forehead for any skull.
    expect((await crown(-0.12)).doubts).toEqual(['crown-out-of-frame'])
  })

  test('of a turned face, the crown lies behind the eyes', async () => {
    // The head looks to the left: its middle is right of the eyes by 0.6 of their distance.
    const eyes = 0.36 * WIDTH
    const at = { x: eyes, y: 0.3 * HEIGHT }
    const moved = { midEyes: at, leftEye: at, eyeDistance: 36 }
    expect((await crown(0.1, { geometry: moved })).doubts).toContain('crown-implausible')
    expect((await crown(0.1, { geometry: moved, turnDeg: -30 })).doubts).toEqual([])
  })
})
