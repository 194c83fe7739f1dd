import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { type Static, Type } from '@sinclair/typebox'
import { Value } from '@sinclair/typebox/value'

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
  /** All points of the template that the marks were made with. */
  points: Type.Optional(Type.Array(Place)),
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

/** Points of the template of 189 that run along the outline of the hair. @source DeBruine & Jones 2017, doi:10.6084/m9.figshare.5047666.v5 */
const HAIR_OUTLINE = { points: 189, from: 145, to: 157 } as const

/** The crown as it was marked, or the highest point of the hair's outline in the template of 189 points; else null. */
export function markedCrown({ crown, points }: Mark): readonly [x: number, y: number] | null {
  if (crown) return crown
  if (points?.length !== HAIR_OUTLINE.points) return null
  const outline = points.slice(HAIR_OUTLINE.from, HAIR_OUTLINE.to + 1)
  return outline.reduce((highest, point) => (point[1] < highest[1] ? point : highest))
}
