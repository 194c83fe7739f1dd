/**
 * Adult head proportions, as ratios that need no scale. Pooled over the 4,082 men and 1,986 women of ANSUR II, as computed from its
 * public tables; `low` and `high` are the 0.5 and 99.5 percentiles. The interpupillary distances agree with Dodgson, "Variation and
 * extrema of human interpupillary distance", Proc. SPIE 5291 (2004).
 */
export interface Proportion {
  readonly mean: number
  readonly low: number
  readonly high: number
}

/** Interpupillary distance over bizygomatic (cheekbone to cheekbone) breadth. @source ANSUR II (US Army Anthropometric Survey 2012, NATICK/TR-15/007), public data. */
export const EYES_TO_FACE: Proportion = { mean: 0.453, low: 0.392, high: 0.523 }
/** Interpupillary distance over head breadth. @source ANSUR II, as above. */
export const EYES_TO_HEAD: Proportion = { mean: 0.416, low: 0.359, high: 0.483 }
/** Interpupillary distance over the height of the crown (hair pressed flat) above the eyes. @source ANSUR II, as above. */
export const EYES_TO_CROWN: Proportion = { mean: 0.567, low: 0.447, high: 0.729 }
/** Interpupillary distance over menton-sellion length (chin to nose root). @source ANSUR II, as above. */
export const EYES_TO_CHIN: Proportion = { mean: 0.531, low: 0.441, high: 0.639 }

/**
 * True when `ratio` lies in the published range, widened by `slack` (a share) for what a photograph adds:
 * perspective, turned heads, landmarks that are a pixel or two off.
 */
export function plausible(ratio: number, { low, high }: Proportion, slack: number): boolean {
  return ratio >= low * (1 - slack) && ratio <= high * (1 + slack)
}
