import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { decodePicture } from '../../src/measure/file/decode.ts'
import { measurePicture } from '../../src/measure/picture.ts'
import { type Mark, readMarks } from './marked-folder.ts'
import { shownIn } from './marked-groups.ts'

/** One photograph of a marked folder as it was measured. Errors are measured less marked; null where not measured or not marked. */
export interface MarkedReading {
  readonly name: string
  /** What it shows: the groups that its mark names, its skin, and a third of the set by how rough the jaw is. */
  readonly groups: readonly string[]
  readonly doubts: readonly string[]
  /** In % of the frame height. */
  readonly eyeLine: number | null
  readonly chin: number | null
  /** Held against the marked crown, or where none is marked against the one that was read. */
  readonly headHeight: number | null
  /** The error that the measurements tell of head height and chin. */
  readonly told: number | null
  readonly tiltDeg: number | null
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
  const { head, face } = await measurePicture(picture, ['background', 'face', 'head'])
  const { leftPupil, rightPupil, chin } = mark
  const { skin, roughness } = shownIn(picture, mark)
  const down = 100 / picture.height
  const lean = Math.atan2(rightPupil[1] - leftPupil[1], rightPupil[0] - leftPupil[0])
  const { crown: read = null } = head ?? {}
  const crown = mark.crown ?? (read && ([read.x * picture.width, read.y * picture.height] as const))
  // As head height is defined: along the axis of the face, projected onto the vertical.
  const height =
    crown &&
    ((chin[1] - crown[1]) * Math.cos(lean) - (chin[0] - crown[0]) * Math.sin(lean)) * Math.cos(lean) * down
  return {
    name: mark.file,
    groups: [...(mark.groups ?? []), skin],
    doubts: head?.doubts ?? ['not measured'],
    eyeLine: less(head?.eyeLinePct, ((leftPupil[1] + rightPupil[1]) / 2) * down),
    chin: less(head?.chin && 100 * head.chin.y, chin[1] * down),
    headHeight: less(head?.headHeightPct, height),
    told: head?.headHeightErrorPct ?? null,
    tiltDeg: less(face?.tiltDeg, (lean * 180) / Math.PI),
    roughness,
  }
}

function less(measured: number | null | undefined, truth: number | null): number | null {
  return measured == null || truth === null ? null : measured - truth
}
