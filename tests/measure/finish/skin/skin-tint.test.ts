import { lab as culoriLab } from 'culori'
import { beforeAll, describe, expect, test } from 'vitest'
import { measureSkinTint, unknownSkinTint } from '../../../../src/measure/finish/skin/skin-tint.ts'
import { painted, type SitterFace, sitterFace, WIDTH } from '../../face/sitter-face.ts'
import type { Rgb } from '../../samples.ts'

let sitter: SitterFace
beforeAll(async () => {
  sitter = await sitterFace()
})

const SKIN: Rgb = [200, 150, 125]
const measured = (picture: ReturnType<typeof painted>) =>
  measureSkinTint(picture, sitter.located, sitter.face)

describe('measureSkinTint', () => {
  test.each([[SKIN], [[96, 60, 44]], [[240, 205, 190]]] as const)('skin of one color, %j', (color) => {
    const { lab, hueDeg, hueErrorDeg, confidence, doubts } = measured(painted(() => [...color]))
    // culori as a second implementation of CIE L*a*b* under D50.
    const [r, g, b] = color.map((code) => code / 255) as [number, number, number]
    const reference = culoriLab({ mode: 'rgb', r, g, b })
    expect(lab?.L).toBeCloseTo(reference.l, 1)
    expect(lab?.a).toBeCloseTo(reference.a, 1)
    expect(lab?.b).toBeCloseTo(reference.b, 1)
    expect(hueDeg).toBeCloseTo((Math.atan2(reference.b, reference.a) * 180) / Math.PI, 0)
    expect({ hueErrorDeg, confidence, doubts }).toEqual({
      hueErrorDeg: 4,
      confidence: sitter.face.confidence,
      doubts: [],
    })
  })

  test('shine and shade on a quarter of it change nothing', () => {
    const plain = measured(painted(() => SKIN))
    const spotted = measured(
      painted((x, y) => ((x + y) % 8 === 0 ? [255, 255, 255] : (x + y) % 8 === 1 ? [20, 10, 10] : SKIN)),
    )
    expect(spotted.lab).toEqual(plain.lab)
  })

  test('hair over one cheek changes nothing; light of two colors widens the error', () => {
    const [[, eyeY]] = sitter.located.irises
    const cheek = (other: Rgb, from: number) =>
      measured(painted((x, y) => (x < WIDTH / 2 && y > from ? other : SKIN)))
    expect(cheek([40, 30, 25], eyeY).lab).toEqual(measured(painted(() => SKIN)).lab)
    expect(cheek([150, 150, 210], 0).hueErrorDeg).toBeGreaterThan(20)
  })

  test('a face outside of the picture has no color', () => {
    const { irises, mesh } = sitter.located
    const located = {
      ...sitter.located,
      irises,
      mesh: mesh.map(([x, y, z]) => [x + 2 * WIDTH, y, z] as const),
    }
    expect(
      measureSkinTint(
        painted(() => SKIN),
        located,
        sitter.face,
      ),
    ).toEqual(unknownSkinTint(['skin-too-small']))
  })
})
