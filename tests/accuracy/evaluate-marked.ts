import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { RgbPicture } from '../../src/imaging/rgb-picture.ts'
import { decodePicture } from '../../src/measure/file/decode.ts'
import { measurePicture } from '../../src/measure/picture.ts'
import type { Head } from '../../src/measure/schema/measurements.ts'
import { type Compared, compared, headHeightOf, type Truths } from './compared.ts'
import { crownOf, type Mark, readMarks } from './marked-folder.ts'
import { shownIn } from './marked-groups.ts'

/** One photograph of a marked folder as it was measured. */
export interface MarkedReading {
  readonly name: string
  /** What it shows: the groups that its mark names, its skin, and a third of the set by how rough the jaw is. */
  readonly groups: readonly string[]
  readonly doubts: readonly string[]
  /** Each measure that was measured and is marked. */
  readonly compared: readonly Compared[]
}

const MOST_PIXELS = 1e9
const ROUGHNESS = ['jaw smoothest third', 'jaw middle third', 'jaw roughest third'] as const

/** Measures every photograph of a folder with `marks.json`. @throws Error when a file is missing or can't be read */
export async function evaluateMarked(folder: string): Promise<MarkedReading[]> {
  const readings: (MarkedReading & { roughness: number })[] = []
  for (const mark of await readMarks(folder)) readings.push(await evaluateOne(folder, mark))
  const inOrder = readings.map(({ roughness }) => roughness).sort((a, b) => a - b)
  return readings.map(({ roughness, ...reading }) => {
    const third = Math.floor((ROUGHNESS.length * inOrder.indexOf(roughness)) / inOrder.length)
    return { ...reading, groups: [...reading.groups, ROUGHNESS[third] ?? ''] }
  })
}

async function evaluateOne(folder: string, mark: Mark): Promise<MarkedReading & { roughness: number }> {
  const picture = await decodePicture(await readFile(join(folder, mark.file)), MOST_PIXELS)
  const { head = null, face = null } = await measurePicture(picture, ['background', 'face', 'head'])
  const { skin, roughness } = shownIn(picture, mark)
  return {
    name: mark.file,
    groups: [...(mark.groups ?? []), skin],
    doubts: head?.doubts ?? ['not measured'],
    compared: compared(head, face, truthsOf(mark, picture, head)),
    roughness,
  }
}

/** @param head gives the crown where none is marked */
function truthsOf(mark: Mark, { width, height }: RgbPicture, head: Head | null): Truths {
  const { leftPupil, rightPupil, chin, turnDeg = 0, nodDeg = 0 } = mark
  const [across, down] = [100 / width, 100 / height]
  const marked = crownOf(mark)
  const lean = Math.atan2(rightPupil[1] - leftPupil[1], rightPupil[0] - leftPupil[0])
  const crown = marked ?? (head?.crown && ([head.crown.x * width, head.crown.y * height] as const))
  return {
    ...(marked && { crown: marked[1] * down }),
    ...(crown && { headHeight: headHeightOf(crown, chin, lean) * down }),
    chin: chin[1] * down,
    eyeLine: ((leftPupil[1] + rightPupil[1]) / 2) * down,
    offCenter: ((leftPupil[0] + rightPupil[0]) / 2) * across - 50,
    tilt: (lean * 180) / Math.PI,
    turn: turnDeg,
    nod: nodDeg,
  }
}
