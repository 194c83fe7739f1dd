import type { Doubt } from '../../measure/schema/measurements.ts'

const SENTENCES: Record<Doubt, string> = {
  'backdrop-not-plain': 'the backdrop is not plain enough to tell it from the sitter',
  'backdrop-too-small': 'too little of the backdrop shows in the frame',
  'backdrop-transparent': 'the picture is cut out (transparent), so there is no backdrop to measure',
  'outline-too-small':
    'the sitter is too small in the file, or too little of the outline shows, to look for a fringe',
  'holes-unclear':
    'the sitter is too small in the file, or the backdrop too uneven, to tell a hole from cloth',
  'no-face': 'no face was found',
  'face-uncertain': 'a face was found, but not with confidence',
  'face-too-small': 'the face is too small to place the eyes',
  'face-turned': 'the face is turned too far from the camera',
  'crown-out-of-frame': 'the head touches or leaves the top edge of the frame',
  'crown-merges-with-backdrop':
    'loose hair, or hair much like the backdrop, leaves the top of the head unclear',
  'crown-unclear': 'it is not clear where the top of the head ends and what is behind it begins',
  'crown-implausible': 'the crown found does not fit the proportions of a head',
  'eyes-implausible': 'the eyes found do not fit the proportions of a face',
  'chin-implausible': 'the chin found does not fit the proportions of a face',
  'eyes-too-small-for-focus': 'the eyes are too small in the file to read their sharpness',
  'eyes-too-small-for-halos': 'the eyes are too small in the file to tell halos from lashes',
  'halos-of-grain': 'the picture is grainy, and grain beside edges looks like halos',
  'picture-too-small-for-traces': 'the picture is too small to look for traces of resizing',
  'eyes-without-edges': 'the eyes show too little detail (closed, in shade, behind dark lenses)',
  'eyes-behind-reflections': 'reflections cover the eyes, and what looks sharp may be the reflections',
  'irises-unclear': 'the edge of an iris does not show clearly (lids, lashes, shade)',
  'skin-too-small': 'too few pixels of bare skin show',
  'skin-too-dark': 'the skin is so dark in the picture that rounding alone changes the result',
  'skin-grainy': 'the grain on the skin is as strong as its texture',
  'skin-colorless': 'the skin is nearly as colorless as a reflection (a gray picture, or colored light)',
  'cheek-covered': 'a cheek is covered (hair, a hand, a frame), or a hard shadow falls across it',
  'eyes-too-small': 'the eyes are too small or at the edge of the picture',
  'lids-made-up': 'both upper lids are paler than the skin, from make-up or a weak reflection',
  'frames-unclear': 'it is not clear whether spectacles are worn',
  'lenses-dark': 'the lenses are too dark to see the eyes',
}

/** The doubts in words, to stand after a colon; a general sentence when there is none. */
export function doubtSentence(doubts: readonly Doubt[]): string {
  return doubts.length === 0 ? 'the measurement is weak' : doubts.map((doubt) => SENTENCES[doubt]).join('; ')
}
