/**
 * Hand marks on photographs that public npm packages carry: in percent of the frame, x to the right and y down,
 * good to about 0.5 on plain walls and to about 1 elsewhere. Marked by eye on enlargements with a grid.
 * `skin` and `hair` are what the picture shows, to see whether the measurements work alike for everybody.
 */
export interface PortraitMark {
  readonly source: string
  /** Path in the package. */
  readonly path: string
  /** The part of the picture that is measured, px: left, top, width and height. The marks are in percent of it. */
  readonly crop?: readonly [number, number, number, number]
  /** A wall, sky or cloth of one color, graded or not: what a studio would call plain. */
  readonly plain: boolean
  readonly crown: number
  readonly eyes?: readonly [readonly [number, number], readonly [number, number]]
  readonly chin?: number
  readonly skin: 'light' | 'medium' | 'dark'
  readonly hair: string
}

const agency = (n: number) => ({
  source: 'startbootstrap-agency',
  path: `dist/assets/img/team/${n}.jpg`,
  plain: true,
})
const argon = (name: string, plain: boolean) => ({
  source: 'argon-design-system-free',
  path: `assets/img/faces/${name}.jpg`,
  plain,
})
const soft = (n: number) => ({
  source: 'soft-ui-design-system',
  path: `assets/img/team-${n}.jpg`,
  plain: true,
})
const material = (name: string, plain: boolean) => ({
  source: 'material-kit',
  path: `assets/img/faces/${name}.jpg`,
  plain,
})

export const PORTRAIT_MARKS: readonly PortraitMark[] = [
  {
    ...agency(1),
    crown: 10.1,
    eyes: [
      [35, 33],
      [46.5, 32.5],
    ],
    chin: 57.4,
    skin: 'medium',
    hair: 'short',
  },
  {
    ...agency(2),
    crown: 6.8,
    eyes: [
      [45.5, 37.5],
      [57.5, 38],
    ],
    chin: 57.5,
    skin: 'medium',
    hair: 'big',
  },
  {
    ...agency(3),
    crown: 10,
    eyes: [
      [44, 36.8],
      [56.5, 35],
    ],
    chin: 61,
    skin: 'light',
    hair: 'curly',
  },
  {
    ...argon('team-3', true),
    crown: 3.3,
    eyes: [
      [28.5, 35.5],
      [40, 33],
    ],
    chin: 58.2,
    skin: 'light',
    hair: 'short',
  },
  {
    ...soft(1),
    crown: 24.7,
    eyes: [
      [43.7, 44.5],
      [52.7, 39.8],
    ],
    chin: 58,
    skin: 'light',
    hair: 'long',
  },
  {
    ...soft(3),
    crown: 9.8,
    eyes: [
      [35.7, 32.7],
      [47.3, 30.7],
    ],
    chin: 56.2,
    skin: 'light',
    hair: 'short',
  },
  {
    ...soft(4),
    crown: 25.3,
    eyes: [
      [59.2, 42.7],
      [64.2, 42.6],
    ],
    chin: 60.8,
    skin: 'light',
    hair: 'short',
  },
  {
    ...material('card-profile1-square', true),
    crown: 9.5,
    eyes: [
      [29.7, 35.3],
      [41.8, 34.9],
    ],
    skin: 'light',
    hair: 'short',
  },
  {
    ...material('card-profile2-square', true),
    crown: 15,
    eyes: [
      [19, 58.5],
      [29.5, 53.5],
    ],
    chin: 77,
    skin: 'medium',
    hair: 'short',
  },
  {
    ...material('card-profile6-square', true),
    crown: 17.5,
    eyes: [
      [56.8, 42.2],
      [66.8, 44.8],
    ],
    chin: 66.5,
    skin: 'medium',
    hair: 'hat',
  },
  {
    ...material('marc', true),
    crown: 2.7,
    eyes: [
      [41.2, 42],
      [58.5, 41.7],
    ],
    chin: 74.2,
    skin: 'light',
    hair: 'short',
  },
  {
    ...argon('team-2', false),
    crown: 16.8,
    eyes: [
      [48, 22.5],
      [57, 24],
    ],
    skin: 'dark',
    hair: 'long',
  },
  { ...argon('team-1', false), crown: 4, skin: 'light', hair: 'short' },
  { ...argon('team-4', false), crown: 2.2, skin: 'medium', hair: 'hat' },
  { ...argon('team-5', false), crown: 3, skin: 'light', hair: 'hat' },
  { ...argon('michael', false), crown: 0.7, skin: 'dark', hair: 'hat' },
  { ...argon('fezbot', false), crown: 11.2, skin: 'light', hair: 'long' },
  { ...argon('atikh', false), crown: 12.4, skin: 'light', hair: 'long' },
  { ...argon('ali-pazani', false), crown: 5.5, skin: 'light', hair: 'dyed' },
  {
    ...argon('christian', false),
    crown: 6.3,
    eyes: [
      [48.8, 35.5],
      [62.5, 36],
    ],
    chin: 65,
    skin: 'light',
    hair: 'hat',
  },
  {
    ...material('camp', false),
    crown: 11,
    eyes: [
      [48, 39.2],
      [61.8, 36.8],
    ],
    skin: 'light',
    hair: 'long',
  },
  { ...material('avatar', false), crown: 4.9, skin: 'light', hair: 'long' },
  {
    ...material('card-profile4-square', false),
    crown: 18.8,
    eyes: [
      [67.5, 38.5],
      [76, 45],
    ],
    skin: 'light',
    hair: 'curly',
  },
  { ...material('card-profile5-square', false), crown: 6.8, skin: 'light', hair: 'tied' },
  { ...material('kendall', false), crown: 5.3, skin: 'light', hair: 'tied' },
]
