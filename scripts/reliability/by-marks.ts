import { solveSystem } from '../../src/numbers/linear-system.ts'
import type { Mark } from '../../tests/accuracy/marked-folder.ts'

/** Points of the template: the tip of the nose, the ends of the jaw and the tops of the ears. @source Face Research Lab London Set, doi:10.6084/m9.figshare.5047666.v5 */
const POINTS = { nose: 54, jaw: [125, 133], ears: [114, 119] } as const

/** What of a level face in the plane of the picture goes with turn and nod, in distances between the pupils. */
export function sightings({ leftPupil, rightPupil, points = [] }: Mark): { turn: number[]; nod: number[] } {
  const [dx, dy] = [rightPupil[0] - leftPupil[0], rightPupil[1] - leftPupil[1]]
  const square = dx ** 2 + dy ** 2
  const place = (index: number) => {
    const [x, y] = points[index] ?? [0, 0]
    const [right, down] = [x - (leftPupil[0] + rightPupil[0]) / 2, y - (leftPupil[1] + rightPupil[1]) / 2]
    return { across: (right * dx + down * dy) / square, along: (down * dx - right * dy) / square }
  }
  const middle = (pair: readonly [number, number], of: 'across' | 'along') =>
    (place(pair[0])[of] + place(pair[1])[of]) / 2
  return {
    turn: [place(POINTS.nose).across, middle(POINTS.jaw, 'across')],
    nod: [place(POINTS.nose).along, middle(POINTS.ears, 'along')],
  }
}

/** What is left of each value when what the others' sightings tell of it is taken off: linear least squares, leaving it out. */
export function leftOver(sightings: readonly (readonly number[])[], values: readonly number[]): number[] {
  const rows = sightings.map((row) => [1, ...row])
  return values.map((value, out) => {
    const weights = fitted(
      rows.filter((_, i) => i !== out),
      values.filter((_, i) => i !== out),
    )
    return value - (rows[out] ?? []).reduce((sum, x, i) => sum + x * (weights[i] as number), 0)
  })
}

function fitted(rows: readonly (readonly number[])[], values: readonly number[]): Float64Array {
  const count = rows[0]?.length ?? 0
  const system = new Float64Array(count * (count + 1))
  for (const [at, row] of rows.entries())
    for (let i = 0; i < count; i++) {
      const start = i * (count + 1)
      for (let j = 0; j < count; j++)
        system[start + j] = (system[start + j] as number) + (row[i] as number) * (row[j] as number)
      system[start + count] = (system[start + count] as number) + (row[i] as number) * (values[at] as number)
    }
  const weights = solveSystem(system, count, Number.MIN_VALUE)
  if (!weights) throw new Error('The sightings are alike, so they tell nothing.')
  return weights
}
