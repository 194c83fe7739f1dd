/**
 * Hand marks of the chin's lowest point (menton) on photographs that public npm packages carry, for faces turned 20
 * degrees at most: in percent of the frame, x to the right and y down. Marked by eye on enlargements with a grid before
 * the tool's readings were looked at; good to about 0.5, under a beard, where the jaw was judged from its shape, to 1.5.
 */
export interface ChinMark {
  readonly source: string
  /** Path in the package. */
  readonly path: string
  readonly chin: readonly [x: number, y: number]
  readonly beard: boolean
}

const argon = (name: string) => ({
  source: 'argon-design-system-free',
  path: `assets/img/faces/${name}.jpg`,
})
const agency = (n: number) => ({ source: 'startbootstrap-agency', path: `dist/assets/img/team/${n}.jpg` })
const material = (name: string) => ({ source: 'material-kit', path: `assets/img/faces/${name}.jpg` })

export const CHIN_MARKS: readonly ChinMark[] = [
  { ...argon('ali-pazani'), chin: [53, 56], beard: false },
  { ...argon('christian'), chin: [55, 64.3], beard: true },
  { ...argon('fezbot'), chin: [45, 50.9], beard: false },
  { ...argon('team-1'), chin: [54.5, 42.9], beard: false },
  { ...argon('team-4'), chin: [53, 53], beard: false },
  { ...material('avatar'), chin: [50, 51.7], beard: false },
  { ...material('marc'), chin: [49, 73], beard: true },
  {
    source: 'soft-ui-design-system',
    path: 'assets/img/team-1.jpg',
    chin: [53, 58.4],
    beard: false,
  },
  { ...agency(2), chin: [53, 57.4], beard: false },
  { ...agency(3), chin: [51, 59.5], beard: true },
]
