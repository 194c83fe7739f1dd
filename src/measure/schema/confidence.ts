/** Confidence from which a measured value may decide pass or fail; below it a person must look. */
export const SURE = 0.5
