/** The spec that is read where none is named, in the working folder. */
export const DEFAULT_SPEC = 'brand.yaml'
