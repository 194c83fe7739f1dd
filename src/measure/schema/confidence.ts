/** Confidence from which a measured value may decide pass or fail; below it the verdict is unsure. */
export const SURE = 0.5
