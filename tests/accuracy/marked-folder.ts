import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { type Static, Type } from '@sinclair/typebox'
import { Value } from '@sinclair/typebox/value'
import { STUDIO_CROWNS } from '../outside/studio-crowns.ts'

const Place = Type.Tuple([Type.Number(), Type.Number()])

/** One photograph of a folder of marked portraits, as its `marks.json` says it: places in px from the top left corner. */
const Mark = Type.Object({
  file: Type.String(),
  /** Centers of the pupils, left and right as seen in the picture. */
  leftPupil: Place,
  rightPupil: Place,
  /** Lowest point of the chin's outline. */
  chin: Place,
  /** Top of the hair or headwear, where it was marked. */
  crown: Type.Optional(Place),
  /** All points of a published template. */
  points: Type.Optional(Type.Array(Place)),
  /** Where the face looks, as `turnDeg` and `nodDeg` are measured; straight ahead unless told. */
  turnDeg: Type.Optional(Type.Number()),
  nodDeg: Type.Optional(Type.Number()),
  /** What the picture shows, such as "skin dark" or "beard full", where somebody noted it. */
  groups: Type.Optional(Type.Array(Type.String())),
})
export type Mark = Static<typeof Mark>

/**
 * The marks of a folder; a mark may have other fields too.
 * @throws Error when `marks.json` is missing or not such a list
 */
export async function readMarks(folder: string): Promise<Mark[]> {
  const path = join(folder, 'marks.json')
  const marks: unknown = JSON.parse(await readFile(path, 'utf8'))
  const [problem] = Value.Errors(Type.Array(Mark), marks)
  if (problem) throw new Error(`${path}: ${problem.path || 'the file'}: ${problem.message}.`)
  return marks as Mark[]
}

/** Points of the template of the Face Research Lab London Set, whose crowns are marked here. */
const STUDIO_POINTS = 189

/** The marked top of the hair or headwear; undefined where none is marked. */
export function crownOf({ file, crown, chin, points }: Mark): Mark['crown'] {
  const own = points?.length === STUDIO_POINTS ? STUDIO_CROWNS[file] : undefined
  return crown ?? (own === undefined ? undefined : [chin[0], own])
}
