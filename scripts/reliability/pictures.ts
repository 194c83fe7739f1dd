import { ACCURACY_SET } from '../../examples/drawing/accuracy-set.ts'
import type { Frame } from '../../examples/drawing/frame.ts'
import type { Look } from '../../examples/drawing/look.ts'
import { drawPortrait } from '../../examples/drawing/portrait.ts'
import { measurePicture } from '../../src/measure/picture.ts'
import { SURE } from '../../src/measure/schema/confidence.ts'
import { type Compared, compared, headHeightOf } from '../../tests/accuracy/compared.ts'
import { evaluateMarked } from '../../tests/accuracy/evaluate-marked.ts'
import { GROUP_CASES, wearing } from '../../tests/accuracy/group-cases.ts'

/** A picture that was measured, with what is known of it. */
export interface Measured {
  readonly name: string
  /** Pictures of one sitter are never both learned from and tested on. */
  readonly sitter: string
  readonly compared: readonly Compared[]
}

/** Drawn sitters before plain paper, as clients would want them, whose heads look straight ahead. */
export async function drawnPictures(): Promise<Measured[]> {
  const cases: { name: string; look: Look; frame: Frame }[] = [
    ...ACCURACY_SET.filter(({ plain }) => plain),
    ...GROUP_CASES.map((one) => ({ name: one.name, look: wearing(one, 'good'), frame: one.good })),
  ]
  const pictures: Measured[] = []
  for (const { name, look, frame } of cases) {
    const { pixels, widthPx, heightPx, truth } = await drawPortrait(look, frame)
    const picture = { data: pixels, width: widthPx, height: heightPx, transparentShare: 0 }
    const { head = null, face = null } = await measurePicture(picture, ['background', 'face', 'head'])
    if (!head || head.confidence < SURE) continue
    const { crownY, chin, leftEye, rightEye, tiltDeg } = truth
    const crown = [(head.crown?.x ?? chin.x) * widthPx, crownY * heightPx] as const
    const height = headHeightOf(crown, [chin.x * widthPx, chin.y * heightPx], (tiltDeg * Math.PI) / 180)
    const truths = {
      crown: 100 * crownY,
      chin: 100 * chin.y,
      headHeight: (100 * height) / heightPx,
      eyeLine: 50 * (leftEye.y + rightEye.y),
      offCenter: 50 * (leftEye.x + rightEye.x) - 50,
      tilt: tiltDeg,
      turn: 0,
      nod: 0,
    }
    pictures.push({ name, sitter: name.split(',')[0] ?? name, compared: compared(head, face, truths) })
  }
  return pictures
}

/** The photographs of a folder with `marks.json`, each of another sitter. */
export async function markedPictures(folder: string): Promise<Measured[]> {
  const readings = await evaluateMarked(folder)
  return readings.map(({ name, compared }) => ({ name, sitter: name, compared }))
}
