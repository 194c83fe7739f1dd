import { describe, expect, test } from 'vitest'
import type { Frame } from '../../examples/drawing/frame.ts'
import type { Portrait } from '../../examples/drawing/portrait.ts'
import { SITTERS } from '../../examples/drawing/sitters.ts'
import { measurePicture } from '../../src/measure/picture.ts'
import { drawnPortrait } from '../drawn.ts'

const FRAME: Frame = {
  widthPx: 640,
  heightPx: 800,
  placement: { crownY: 0.09, chinY: 0.58 },
  backdrop: { color: 244 },
  key: { side: 'left', ratioStops: 0.5 },
}

async function draw(index: number, change: Partial<Frame> = {}): Promise<Portrait> {
  const sitter = SITTERS[index]
  if (!sitter) throw new Error(`There is no sitter ${index}.`)
  return drawnPortrait(sitter.look, { ...FRAME, ...change })
}
const decoded = ({ pixels, widthPx, heightPx }: Portrait) => ({
  data: pixels,
  width: widthPx,
  height: heightPx,
  transparentShare: 0,
})

describe('measurePicture on drawn sitters', () => {
  test.each([-25, -9, 0, 9, 25])(
    'tells a lean of %i degrees, and the eyes where they are',
    async (tiltDeg) => {
      const portrait = await draw(3, { tiltDeg, placement: { crownY: 0.15, chinY: 0.6 } })
      const { face } = await measurePicture(decoded(portrait), ['face'])
      expect(Math.abs((face?.tiltDeg ?? 99) - tiltDeg)).toBeLessThan(0.7)
      for (const side of ['leftEye', 'rightEye'] as const) {
        const { x, y } = portrait.truth[side]
        const found = face?.[side]
        const distance = Math.hypot(((found?.x ?? 9) - x) * 640, ((found?.y ?? 9) - y) * 800)
        expect(distance / portrait.truth.eyeDistancePx, side).toBeLessThan(0.025)
      }
    },
  )

  test('measures a picture the same whatever was measured before', async () => {
    const first = decoded(await draw(4))
    const other = decoded(await draw(12, { tiltDeg: 8 }))
    const alone = await measurePicture(first, ['background', 'face', 'head'])
    await measurePicture(other, ['face'])
    const [again] = await Promise.all([
      measurePicture(first, ['background', 'face', 'head']),
      measurePicture(other, ['face']),
    ])
    expect(again).toEqual(alone)
  })

  test('computes only the groups that are asked for', async () => {
    const picture = decoded(await draw(0))
    expect(Object.keys(await measurePicture(picture, ['background']))).toEqual(['background'])
    expect(Object.keys(await measurePicture(picture, ['face']))).toEqual(['face'])
    expect(await measurePicture(picture, [])).toEqual({})
  })

  test('finds both faces when a colleague stands behind', async () => {
    const other = SITTERS[8]
    if (!other) throw new Error('There is no sitter 8.')
    const portrait = await draw(1, {
      placement: { crownY: 0.3, chinY: 0.75 },
      second: { look: other.look, eyeX: 0.82, eyeY: 0.25, headWidth: 0.24 },
    })
    const { face } = await measurePicture(decoded(portrait), ['face'])
    expect(face?.count).toBe(2)
    expect(face?.others[0]?.box.x).toBeGreaterThan(0.5)
  })

  // ANSI/NIST-ITL 1-2011 Update 2013, Annex E.4.3.1: eyes about 55 % up from the bottom, head about half the width.
  test('reads the layout of ANSI/NIST-ITL Annex E.4.3.1 off a sitter drawn to it', async () => {
    const portrait = await draw(20, {
      widthPx: 480,
      heightPx: 600,
      placement: { eyeY: 0.45, headWidth: 0.5 },
    })
    const { head } = await measurePicture(decoded(portrait), ['head'])
    expect(Math.abs((head?.eyeLinePct ?? 0) - 45)).toBeLessThan(0.5)
    expect(Math.abs((head?.offCenterPct ?? 99) - 0)).toBeLessThan(0.5)
  })
})

test('an empty backdrop has no face and no head to measure', async () => {
  const { face, head } = await measurePicture(
    { data: Buffer.alloc(3 * 300 * 400, 240), width: 300, height: 400, transparentShare: 0 },
    ['face', 'head'],
  )
  expect(face).toMatchObject({ count: 0, doubts: ['no-face'] })
  expect(head).toMatchObject({ headroomPct: null, confidence: 0 })
})
