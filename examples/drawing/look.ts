/**
 * Skin tones: the Monk Skin Tone scale, ten steps from lightest to darkest
 * (Ellis Monk, 2019; published 2022 under CC BY 4.0).
 */
export const MONK_TONES = [
  '#f6ede4',
  '#f3e7db',
  '#f7ead0',
  '#eadaba',
  '#d7bd96',
  '#a07e56',
  '#825c43',
  '#604134',
  '#3a312a',
  '#292420',
] as const

export type HairStyle =
  | 'bald'
  | 'cropped'
  | 'receding'
  | 'short'
  | 'swept'
  | 'bob'
  | 'long'
  | 'waves'
  | 'bun'
  | 'topknot'
  | 'curls'
  | 'afro'
export type HairColor = 'black' | 'brown' | 'auburn' | 'red' | 'blond' | 'gray' | 'white'
type Headwear = 'none' | 'headscarf' | 'turban' | 'scrub-cap'
export type Spectacles = 'none' | 'thin' | 'thick'
type Beard = 'none' | 'stubble' | 'short' | 'full'
type Garment = 'shirt' | 'scrubs' | 'white-coat' | 'pullover'

/** Proportions of an adult head seen from the front, in millimeters at an inter-pupillary distance of 64 mm. */
export interface Proportions {
  /** 138 to 170; ears not included. */
  readonly headBreadth: number
  /** Crown of the skull (no hair) above the eyes: 96 to 124. */
  readonly skullAboveEyes: number
  /** Chin below the eyes: 102 to 124. */
  readonly chinBelowEyes: number
  /** 30 to 42. */
  readonly noseWidth: number
  /** 46 to 58. */
  readonly mouthWidth: number
  /** 9 to 12: height of the open eye. */
  readonly eyeOpening: number
  /** 0 narrow to 1 square. */
  readonly jaw: number
  /** 0 thin to 1 full. */
  readonly lips: number
  /** 0 fine to 1 heavy. */
  readonly brows: number
  /** 0 young to 1 lined. */
  readonly lines: number
}

/** What a sitter looks like, however the picture is taken. */
export interface Look {
  /** Seeds strands and curls, so that every sitter has their own. */
  readonly seed: number
  /** Index into MONK_TONES, 0 to 9. */
  readonly tone: number
  readonly hair: HairStyle
  readonly hairColor: HairColor
  /** Single strands that stand off the hair; 0 to about 20. */
  readonly flyAways: number
  readonly headwear: Headwear
  /** Color of the headwear, "#rrggbb". */
  readonly headwearColor: string
  readonly spectacles: Spectacles
  readonly beard: Beard
  /** Color of the iris, "#rrggbb". */
  readonly eyes: string
  /** Made-up lips and lashes. */
  readonly makeup: boolean
  readonly garment: Garment
  readonly garmentColor: string
  readonly proportions: Proportions
}

export const AVERAGE: Proportions = {
  headBreadth: 152,
  skullAboveEyes: 110,
  chinBelowEyes: 114,
  noseWidth: 35,
  mouthWidth: 51,
  eyeOpening: 10.6,
  jaw: 0.5,
  lips: 0.5,
  brows: 0.5,
  lines: 0.2,
}
