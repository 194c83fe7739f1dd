/**
 * What decides what a rule finds. `scene`: sitter, light, backdrop and focus, which are settled once a frame is made; `crop`: where the
 * edges of the picture are; `export`: all that is done after that, from retouching to the file's name. A camera frame is judged by the
 * first, and by whether a crop of it can meet the second.
 */
export type Stage = 'scene' | 'crop' | 'export'

/** What decides it in words, for `explain` and the docs. */
export const STAGE_TEXTS: Readonly<Record<Stage, string>> = {
  scene: 'the frame as the camera made it: no crop and no export changes it.',
  crop: 'the crop.',
  export: 'what is done after the crop: retouching, saving, naming, metadata.',
}
