import type { Doubt } from '../../measure/schema/measurements.ts'

const SENTENCES: Record<Doubt, string> = {
  'backdrop-not-plain': 'the backdrop is not plain enough to tell it from the sitter',
  'backdrop-too-small': 'too little of the backdrop shows in the frame',
  'backdrop-transparent': 'the picture is cut out (transparent), so there is no backdrop to measure',
  'no-face': 'no face was found',
  'face-uncertain': 'a face was found, but not with confidence',
  'face-too-small': 'the face is too small to place the eyes',
  'face-turned': 'the face is turned too far from the camera',
  'crown-out-of-frame': 'the head touches or leaves the top edge of the frame',
  'crown-merges-with-backdrop': 'the top of the head is hardly darker or lighter than the backdrop behind it',
  'crown-implausible': 'the crown found does not fit the proportions of a head',
  'eyes-implausible': 'the eyes found do not fit the proportions of a face',
  'chin-implausible': 'the chin found does not fit the proportions of a face',
  'eyes-too-small-for-focus': 'the eyes are too small in the file to read their sharpness',
  'eyes-without-edges':
    'there is too little structure at the eyes (closed, in the shade, behind dark lenses)',
  'eyes-behind-reflections':
    'reflections lie before the eyes, and what is sharp there may be the reflections',
  'skin-too-small': 'too few pixels of bare skin show',
  'skin-too-dark': 'skin is so dark in the picture that rounding alone changes the result',
  'skin-colorless':
    'skin is nearly as white or gray as a reflection would be (a picture in gray, or a colored light)',
  'cheek-covered': 'a cheek is covered (hair, a hand, a frame), or a hard shadow falls across it',
  'eyes-too-small': 'the eyes are too small or lie at the edge of the picture',
  'lids-made-up': 'the upper lids of both eyes are paler than skin by make-up or a weak reflection',
  'lenses-dark': 'the lenses are so dark that no eyes are seen behind them',
}

/** The doubts in words, to stand after a colon; a general sentence when there is none. */
export function doubtSentence(doubts: readonly Doubt[]): string {
  return doubts.length === 0 ? 'the measurement is weak' : doubts.map((doubt) => SENTENCES[doubt]).join('; ')
}
