import { beforeAll, describe, expect, test } from 'vitest'
import type { Truth } from '../../../examples/drawing/truth.ts'
import { measurePicture } from '../../../src/measure/picture.ts'
import type { Finish } from '../../../src/measure/schema/measurements.ts'
import { drawnPortrait } from '../../drawn.ts'
import { part, partOf } from '../../sets.ts'
import { GLARE_CASES, type GlareCase } from './glare/glare-cases.ts'

interface Measured extends GlareCase {
  readonly finish: Finish
  readonly truth: Truth
}

const EVERY = 5
// The limit that the rule's text calls good.
const MAX_PCT = 3

describe('the finish of drawn sitters: truth by construction', () => {
  const measured: Measured[] = []
  beforeAll(async () => {
    for (const one of part(GLARE_CASES, EVERY)) {
      const { pixels, widthPx, heightPx, truth } = await drawnPortrait(one.look, one.frame)
      const picture = { data: pixels, width: widthPx, height: heightPx, transparentShare: 0 }
      const { finish } = await measurePicture(picture, ['finish'])
      if (!finish) throw new Error(`${one.name} was not measured.`)
      measured.push({ ...one, finish, truth })
    }
  })
  const glareOf = ({ finish }: Measured) => finish.lensGlarePct ?? Number.NaN

  // Area under the ROC curve as the Mann-Whitney statistic (Hanley and McNeil, Radiology 143, 1982).
  test('lens glare tells pictures with glare from those without: area under the ROC curve', () => {
    const bad = measured.filter(({ glare }) => glare).map(glareOf)
    const good = measured.filter(({ glare }) => !glare).map(glareOf)
    expect(bad.length + good.length).toBeGreaterThanOrEqual(partOf(60, EVERY))
    let above = 0
    for (const b of bad) for (const g of good) above += b > g ? 1 : b === g ? 0.5 : 0
    expect(above / (bad.length * good.length)).toBeGreaterThanOrEqual(0.97)
  })

  test('no eye with catchlights only goes over the limit, in any skin, with or without frames', () => {
    const over = measured.filter((one) => !one.glare && !(glareOf(one) <= MAX_PCT))
    expect(over.map(({ name }) => name)).toEqual([])
  })

  test('every glare of a tenth of a lens or more goes over the limit', () => {
    const under = measured.filter(
      (one) => (one.frame.lensGlare?.share ?? 0) >= 0.1 && !(glareOf(one) > MAX_PCT),
    )
    expect(under.map(({ name }) => name)).toEqual([])
  })

  test('a glare on one lens leaves the other eye clean', () => {
    for (const { name, frame, finish } of measured) {
      const on = frame.lensGlare?.on
      if (on !== 'left' && on !== 'right') continue
      expect(finish.lensGlare[on === 'left' ? 'right' : 'left']?.glarePct, name).toBeLessThanOrEqual(MAX_PCT)
    }
  })

  test('catchlights are counted: nine in ten eyes right', () => {
    const eyes = measured
      .filter(({ glare }) => !glare)
      .flatMap(({ frame, finish }) =>
        [finish.lensGlare.left, finish.lensGlare.right].map(
          (eye) => eye?.catchlights === frame.catchlights?.count,
        ),
      )
    expect(eyes.filter(Boolean).length / eyes.length).toBeGreaterThanOrEqual(0.9)
  })

  test('the key side is right and its ratio within 0.1 stop, in every tone, beards and scarves included', () => {
    for (const { name, finish, truth } of measured) {
      const { keySide, keyRatioStops, key } = finish
      expect(key.confidence, `${name}: ${key.doubts.join()}`).toBeGreaterThanOrEqual(0.5)
      expect(keySide, name).toBe(truth.keySide)
      expect(Math.abs((keyRatioStops ?? 9) - truth.keyRatioStops), name).toBeLessThanOrEqual(0.1)
    }
  })

  test('skin that was drawn within the scale is not clipped', () => {
    for (const { name, finish } of measured) {
      expect(finish.clippedHighlightPct, name).toBeLessThan(1)
      expect(finish.clippedShadowPct, name).toBeLessThan(1)
    }
  })

  test('nothing is in doubt', () => {
    const doubtful = measured.filter(({ finish }) => finish.lensGlare.confidence < 0.5)
    expect(doubtful.map(({ name, finish }) => `${name}: ${finish.lensGlare.doubts.join()}`)).toEqual([])
  })
})

test('an empty backdrop has no finish to measure', async () => {
  const { finish } = await measurePicture(
    { data: Buffer.alloc(3 * 300 * 400, 240), width: 300, height: 400, transparentShare: 0 },
    ['finish'],
  )
  expect(finish).toMatchObject({
    lensGlarePct: null,
    clippedHighlightPct: null,
    keySide: null,
    lensGlare: { confidence: 0, doubts: ['no-face'] },
  })
})
