import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { decodePicture } from '../../src/measure/file/decode.ts'
import { measurePicture } from '../../src/measure/picture.ts'
import type { Head } from '../../src/measure/schema/measurements.ts'
import { type Compared, compared, type Truths } from './compared.ts'
import { type Mark, readMarks } from './marked-folder.ts'
import { shownIn } from './marked-groups.ts'

/** One photograph of a marked folder as it was measured. */
export interface MarkedReading {
  readonly name: string
  /** What it shows: the groups that its mark names, its skin, and a third of the set by how rough the jaw is. */
  readonly groups: readonly string[]
  readonly doubts: readonly string[]
  /** Each measure that was measured and is marked. */
  readonly compared: readonly Compared[]
  /** Measured less marked, % of the frame height; null where not measured. */
  readonly chin: number | null
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
    chin: head?.chin ? 100 * (head.chin.y - mark.chin[1] / picture.height) : null,
    roughness,
  }
}

/** @param head gives the crown where none is marked */
function truthsOf(
  mark: Mark,
  { width, height }: { width: number; height: number },
  head: Head | null,
): Truths {
  const { leftPupil, rightPupil, chin, crown: marked, turnDeg = 0, nodDeg = 0 } = mark
  const [across, down] = [100 / width, 100 / height]
  const lean = Math.atan2(rightPupil[1] - leftPupil[1], rightPupil[0] - leftPupil[0])
  const crown = marked ?? (head?.crown && ([head.crown.x * width, head.crown.y * height] as const))
  return {
    ...(marked && { crown: marked[1] * down }),
    ...(crown && { headHeight: heightOf(crown, chin, lean) * down }),
    eyeLine: ((leftPupil[1] + rightPupil[1]) / 2) * down,
    offCenter: ((leftPupil[0] + rightPupil[0]) / 2) * across - 50,
    tilt: (lean * 180) / Math.PI,
    turn: turnDeg,
    nod: nodDeg,
  }
}

/** As head height is defined: along the axis of the face, projected onto the vertical. */
function heightOf(crown: readonly [number, number], chin: readonly [number, number], lean: number): number {
  return ((chin[1] - crown[1]) * Math.cos(lean) - (chin[0] - crown[0]) * Math.sin(lean)) * Math.cos(lean)
}
