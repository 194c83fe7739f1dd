import { describe, expect, test } from 'vitest'
import { findBackdrop } from '../../../src/measure/backdrop/backdrop.ts'
import { measureBackground } from '../../../src/measure/backdrop/background.ts'
import { seeded } from '../../random.ts'
import { type Paint, scene, sitter } from '../scene.ts'

const WIDTH = 320
const HEIGHT = 400
const isSitter = sitter(0.1)

const BARE = { transparentShare: 0, intrusions: null, straightening: null, fringe: null, holes: null }

function background(paint: Paint, transparentShare = 0) {
  const picture = scene(WIDTH, HEIGHT, (x, y) => (isSitter(x, y) ? [50, 40, 35] : paint(x, y)))
  return measureBackground(picture.lab, findBackdrop(picture.lab, WIDTH, HEIGHT), {
    ...BARE,
    transparentShare,
  })
}

// L* of neutral sRGB codes: IEC 61966-2-1 and CIE 15:2004, the same with white D50 and D65.
describe('luminance of neutral backdrops', () => {
  test.each([
    [255, 100],
    [245, 96.5375],
    [230, 91.293],
    [200, 80.6041],
    [128, 53.585],
  ])('code %i has L* %f', (code, luminance) => {
    const measured = background(() => [code, code, code])
    expect(measured.lightnessL).toBeCloseTo(luminance, 1)
    expect(measured.unevennessL).toBeLessThan(0.2)
    expect(measured.chromaC).toBeLessThan(0.1)
    expect(measured).toMatchObject({ doubts: [] })
    expect(measured.confidence).toBeGreaterThan(0.8)
  })
})

test('what ends at each side of the frame', () => {
  // The painted sitter leaves by the bottom edge and stands clear of the other three.
  const { edges } = background(() => [230, 230, 230])
  expect(edges).toMatchObject({ topPct: 100, leftPct: 100, rightPct: 100 })
  const sitterAtBottom = Array.from({ length: WIDTH }, (_, x) =>
    isSitter((x + 0.5) / WIDTH, (HEIGHT - 0.5) / HEIGHT),
  )
  const backdrop = (100 * sitterAtBottom.filter((one) => !one).length) / WIDTH
  expect(backdrop).toBeLessThan(90)
  expect(Math.abs(edges.bottomPct - backdrop)).toBeLessThan(2)
})

describe('the sides of the frame', () => {
  const half = (left: number, right: number): Paint => {
    // A smooth change from one side to the other; a step would be an edge.
    return (x) => {
      const share = Math.min(1, Math.max(0, 3 * x - 1))
      const code = Math.round(left + (right - left) * share)
      return [code, code, code]
    }
  }

  test('are told by the lightness of their thirds (codes 230 and 200, as above)', () => {
    const { sides } = background(half(230, 200))
    expect(sides?.leftL).toBeCloseTo(91.293, 1)
    expect(sides?.rightL).toBeCloseTo(80.604, 1)
  })

  test('but not where hardly any backdrop shows in one', () => {
    const picture = scene(WIDTH, HEIGHT, (x) => (x > 0.66 ? [50, 40, 35] : [230, 230, 230]))
    const backdrop = findBackdrop(picture.lab, WIDTH, HEIGHT)
    expect(measureBackground(picture.lab, backdrop, BARE)).not.toHaveProperty('sides')
  })
})

// (194,150,130) in CIELAB D50: 65.920 14.961 17.266, by ICC color management.
test('chroma and hue of a colored backdrop', () => {
  const measured = background(() => [194, 150, 130])
  expect(measured.lightnessL).toBeCloseTo(65.92, 1)
  expect(measured.chromaC).toBeCloseTo(Math.hypot(14.961, 17.266), 1)
  expect(measured.hueDeg).toBeCloseTo((Math.atan2(17.266, 14.961) * 180) / Math.PI, 0)
})

// Code 230 less a third of a stop is code 207.6, L* 83.34: a fall-off of 7.95 L* (IEC 61966-2-1, CIE 15).
describe('evenness', () => {
  const linear = ((230 / 255 + 0.055) / 1.055) ** 2.4
  const fallOff = (stops: number): Paint => {
    return (x, y) => {
      const light = linear * 2 ** (-stops * ((x + y) / 2))
      const code = Math.round(255 * (1.055 * light ** (1 / 2.4) - 0.055))
      return [code, code, code]
    }
  }

  test('a third of a stop from corner to corner is told within 10 %', () => {
    const visible: number[] = []
    for (let y = 0; y < HEIGHT; y++) {
      for (let x = 0; x < WIDTH; x++) {
        const at = [(x + 0.5) / WIDTH, (y + 0.5) / HEIGHT] as const
        if (isSitter(...at)) continue
        visible.push(116 * Math.cbrt(linear * 2 ** (-(at[0] + at[1]) / 6)) - 16)
      }
    }
    visible.sort((a, b) => a - b)
    const truth =
      (visible[Math.round(0.95 * visible.length)] as number) -
      (visible[Math.round(0.05 * visible.length)] as number)
    const measured = background(fallOff(1 / 3)).unevennessL
    expect(measured).toBeGreaterThan(0.9 * truth)
    expect(measured).toBeLessThan(1.1 * truth)
  })

  test('noise alone is not unevenness', () => {
    const random = seeded(1)
    const measured = background(() => {
      const code = 236 + Math.floor(9 * random())
      return [code, code, code]
    })
    expect(measured.unevennessL).toBeLessThan(0.5)
  })
})

describe('doubts', () => {
  test('a cut-out picture has no backdrop to speak of', () => {
    expect(background(() => [255, 255, 255], 0.4)).toMatchObject({
      confidence: 0,
      doubts: ['backdrop-transparent'],
    })
  })

  test('a wall of bricks is not plain', () => {
    const measured = background((x, y) => {
      const row = Math.floor(y * 40)
      const joint = (y * 40) % 1 < 0.2 || (x * 12 + (row % 2) / 2) % 1 < 0.1
      return joint ? [200, 195, 190] : [150, 80, 60]
    })
    expect(measured.doubts).toContain('backdrop-not-plain')
    expect(measured.confidence).toBeLessThan(0.5)
  })

  test('a frame filled by the sitter leaves too little', () => {
    const picture = scene(100, 100, (_, y) => (y < 0.04 ? [244, 244, 244] : [50, 40, 35]))
    const measured = measureBackground(picture.lab, findBackdrop(picture.lab, 100, 100), BARE)
    expect(measured.confidence).toBeLessThan(0.5)
    expect(measured.doubts).toContain('backdrop-too-small')
  })
})
