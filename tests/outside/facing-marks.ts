/**
 * How the heads of photographs that public npm packages carry are turned and nodded, as seen by eye before the tool's readings were
 * sorted by it; `profile` is turned to the right until one eye is hidden. What is not clear to the eye is left out.
 */
export interface FacingMark {
  readonly source: string
  /** Path in the package. */
  readonly path: string
  /** Side of the frame that the face looks to. */
  readonly turn?: 'left' | 'ahead' | 'right' | 'profile'
  readonly nod?: 'raised' | 'lowered'
}

const argon = (name: string) => ({
  source: 'argon-design-system-free',
  path: `assets/img/faces/${name}.jpg`,
})
const agency = (n: number) => ({ source: 'startbootstrap-agency', path: `dist/assets/img/team/${n}.jpg` })
const material = (name: string) => ({ source: 'material-kit', path: `assets/img/faces/${name}.jpg` })
const soft = (n: number) => ({ source: 'soft-ui-design-system', path: `assets/img/team-${n}.jpg` })

export const FACING_MARKS: readonly FacingMark[] = [
  { ...argon('michael'), turn: 'left', nod: 'raised' },
  { ...argon('team-5'), turn: 'left' },
  { ...argon('team-3'), turn: 'left' },
  { ...argon('team-2'), turn: 'left', nod: 'raised' },
  { ...soft(3), turn: 'left', nod: 'raised' },
  { ...agency(1), turn: 'left' },
  { ...material('card-profile6-square'), turn: 'left' },
  { ...agency(3), turn: 'ahead' },
  { ...material('marc'), turn: 'ahead' },
  { ...argon('ali-pazani'), turn: 'ahead' },
  { ...argon('atikh'), turn: 'ahead' },
  { ...argon('fezbot'), turn: 'ahead' },
  { ...argon('christian'), turn: 'ahead' },
  { ...soft(1), turn: 'ahead' },
  { ...material('card-profile1-square'), turn: 'right' },
  { ...material('card-profile5-square'), turn: 'right' },
  { ...material('camp'), turn: 'right' },
  { ...material('kendall'), turn: 'right', nod: 'raised' },
  { ...soft(4), turn: 'profile' },
  { ...material('card-profile2-square'), nod: 'lowered' },
]
