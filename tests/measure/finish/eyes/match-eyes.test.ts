import { beforeAll, describe, expect, test } from 'vitest'
import { scaledFace } from '../../../../src/measure/face/placed-face.ts'
import { matchEyes, mostAlike, unknownEyePair } from '../../../../src/measure/finish/eyes/match-eyes.ts'
import { HEIGHT, painted, type SitterFace, sitterFace, WIDTH } from '../../face/sitter-face.ts'
import type { Rgb } from '../../samples.ts'

let sitter: SitterFace
beforeAll(async () => {
  sitter = await sitterFace()
})

const SKIN: Rgb = [200, 150, 125]
const WHITE: Rgb = [190, 180, 175]
const IRIS: Rgb = [90, 70, 60]
const LIGHT: Rgb = [255, 255, 255]
/** Radius of an iris, mm. Rüfer, Schröder and Erb, Cornea 24(3), 2005: 11.7 mm across in the mean. */
const RADIUS = 5.85
/** How wide the soft edge of an iris is to both sides, mm. Common knowledge, no source: the limbus is 1 to 1.5 mm wide. */
const LIMBUS = 0.7
/** How much larger than the drawn sitter's the eyes are painted: 90 px apart would be too few. */
const SCALE = 2

interface Painted {
  readonly radius?: number
  /** Where a light is, mm from the middle of the iris; none by default. */
  readonly light?: readonly [x: number, y: number]
  readonly iris?: Rgb
}

/** Open eyes of known irises and lights, 30 mm wide and 12 mm high. */
function measured(left: Painted, right: Painted, face = sitter.located) {
  const located = scaledFace(face, SCALE)
  const [width, height] = [SCALE * WIDTH, SCALE * HEIGHT]
  const mmPx = SCALE * sitter.mmPx
  const data = new Uint8Array(3 * width * height)
  for (let i = 0; i < data.length; i += 3) data.set(SKIN, i)
  for (const [eye, [irisX, irisY]] of located.irises.entries()) {
    const { radius = RADIUS, light, iris = IRIS } = eye === 0 ? left : right
    for (let row = Math.floor(irisY - 6 * mmPx); row < irisY + 6 * mmPx; row++) {
      for (let column = Math.floor(irisX - 15 * mmPx); column < irisX + 15 * mmPx; column++) {
        const [x, y] = [(column + 0.5 - irisX) / mmPx, (row + 0.5 - irisY) / mmPx]
        if ((x / 15) ** 2 + (y / 6) ** 2 > 1) continue
        const outside = Math.min(1, Math.max(0, (Math.hypot(x, y) - radius + LIMBUS) / (2 * LIMBUS)))
        const shines = light && Math.hypot(x - light[0], y - light[1]) < 1.1
        const color = shines ? LIGHT : iris.map((code, k) => code + outside * ((WHITE[k] as number) - code))
        data.set(color, 3 * (row * width + column))
      }
    }
  }
  return matchEyes({ data, width, height }, located, { ...sitter.face, turnDeg: 0 })
}

describe('matchEyes', () => {
  test('two eyes of one frame', () => {
    const pair = measured({ light: [-1.5, -1.5] }, { light: [-2.6, -1.5] })
    expect(pair).toMatchObject({ irisDifferencePct: 0, confidence: sitter.face.confidence, doubts: [] })
    // A sharp, dark edge leaves the middle of an iris a tenth of its radius to move.
    expect(pair.catchlightsApart).toBeLessThan(0.25)
    for (const eye of [pair.left, pair.right])
      expect((eye?.irisPx ?? 0) / (SCALE * sitter.mmPx) / (2 * RADIUS)).toBeCloseTo(1, 1)
    const { across = 9, down = 9 } = pair.left?.catchlight ?? {}
    expect(Math.hypot(across + 1.5 / RADIUS, down + 1.5 / RADIUS)).toBeLessThan(0.12)
  })

  test.each([1.2, 1.25])('one iris %f times as wide', (scale) => {
    const { irisDifferencePct, left, right } = measured({ radius: RADIUS * scale }, {})
    expect(irisDifferencePct).toBeGreaterThan(6)
    // The least difference that fits.
    expect(irisDifferencePct).toBeLessThan(100 * (scale - 1) + 2.5)
    expect(left?.irisPx).toBeGreaterThan(right?.irisPx ?? Infinity)
  })

  test('a light on the other side', () => {
    const { catchlightsApart } = measured({ light: [-2, -1.5] }, { light: [2, -1.5] })
    // 4 mm and what two axes differ.
    expect(catchlightsApart).toBeCloseTo(4 / RADIUS + 0.2, 1)
  })

  test('the color of an iris does not matter', () => {
    const lights = { light: [-1.5, -1.5] } as const
    const { irisDifferencePct, catchlightsApart } = measured({ ...lights, iris: [105, 135, 165] }, lights)
    expect(irisDifferencePct).toBe(0)
    expect(catchlightsApart).toBeLessThan(0.3)
  })

  test('an eye without a light has none to compare', () => {
    const pair = measured({ light: [-2, -1.5] }, {})
    expect(pair.right?.catchlight).toBeNull()
    expect(pair.catchlightsApart).toBeNull()
  })

  test('what shines on the wet line of the lower lid is no light', () => {
    const [left, right] = sitter.located.irises
    const lowered = new Map<number, number>([145, 374].map((lid, eye) => [lid, [left, right][eye]?.[1] ?? 0]))
    const squinting = {
      ...sitter.located,
      // Lower lids that cover the irises from 2.5 mm below their middles on.
      mesh: sitter.located.mesh.map((point, k) => {
        const iris = lowered.get(k)
        return iris === undefined ? point : ([point[0], iris + 2.5 * sitter.mmPx, point[2]] as const)
      }),
    }
    const lights = [{ light: [-1, -1.5] }, { light: [-1, 3.2] }] as const
    expect(measured(...lights).catchlightsApart).toBeGreaterThan(0.4)
    expect(measured(...lights, squinting).catchlightsApart).toBeNull()
  })

  test('irises that hardly show, turned and small faces are left open', () => {
    expect(measured({ iris: [180, 172, 168] }, {}).doubts).toEqual(['irises-unclear'])
    const turned = matchEyes(
      painted(() => SKIN),
      sitter.located,
      { ...sitter.face, turnDeg: 16 },
    )
    expect(turned.doubts).toEqual(['eyes-too-small', 'face-turned', 'irises-unclear'])
    expect(turned.confidence).toBeLessThan(0.5)
    expect(unknownEyePair(['no-face'])).toMatchObject({ irisDifferencePct: null, confidence: 0 })
  })
})

test('of irises that fit about as well, the most alike are told', () => {
  const circle = (radius: number, contrast: number) => ({
    x: 0,
    y: 0,
    radius,
    contrast,
    leastContrast: contrast,
  })
  const atLeft = [circle(18, 41), circle(22, 40)]
  const atRight = [circle(18, 20), circle(22, 40)]
  expect(mostAlike(atLeft, atRight).map(({ radius }) => radius)).toEqual([22, 22])
  expect(mostAlike([circle(18, 41), circle(22, 30)], atRight).map(({ radius }) => radius)).toEqual([18, 22])
})
