import { nearest } from '../text/nearest.ts'

/**
 * What people write for rules, settings and values that have another name, by the names that they mean: a first one to
 * read, and others. Common practice, no source.
 */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  dpi: ['resolution', 'pixel-size'],
  ppi: ['resolution', 'pixel-size'],
  size: ['pixel-size', 'file-size', 'aspect-ratio'],
  dimensions: ['pixel-size', 'aspect-ratio'],
  ratio: ['aspect-ratio'],
  gps: ['metadata-forbidden', 'coordinates', 'location'],
  location: ['metadata-forbidden'],
  privacy: ['metadata-forbidden'],
  copyright: ['metadata-required'],
  author: ['creator'],
  byline: ['creator'],
  photographer: ['creator'],
  caption: ['description'],
  date: ['capture-time'],
  exif: ['metadata-required', 'metadata-forbidden'],
  iptc: ['metadata-required', 'metadata-forbidden'],
  icc: ['color-space'],
  profile: ['color-space'],
  srgb: ['color-space'],
  monochrome: ['color-space', 'gray'],
  grayscale: ['color-space', 'gray'],
  quality: ['compression'],
  subsampling: ['compression'],
  'chroma-subsampling': ['compression'],
  progressive: ['compression'],
  jpeg: ['compression', 'file-format'],
  jpg: ['compression', 'file-format', 'jpeg'],
  tif: ['file-format', 'tiff'],
  format: ['file-format'],
  name: ['file-name'],
  naming: ['file-name'],
  blur: ['eye-focus'],
  sharpness: ['eye-focus'],
  focus: ['eye-focus'],
  glasses: ['lens-glare'],
  reflection: ['lens-glare'],
  crop: ['headroom', 'head-height', 'eye-line', 'centering'],
  framing: ['headroom', 'head-height', 'eye-line', 'centering'],
  'background-luminance': ['background-lightness'],
  background: ['background-lightness', 'background-unevenness', 'background-tint', 'backdrop-edge'],
  backdrop: ['background-lightness', 'background-unevenness', 'background-tint', 'backdrop-edge'],
  thumbnail: ['stale-preview', 'preview'],
  preview: ['stale-preview'],
  rotation: ['orientation', 'tilt'],
  exposure: ['clipping'],
  light: ['key-side', 'clipping'],
  duplicate: ['duplicate-picture'],
  missing: ['roster', 'variants'],
}

/** All of these words, for those that are misspelled. */
export const OTHER_WORDS: readonly string[] = Object.keys(WORDS)

/** Most names that a part of a word is a hint at. @choice more are read like the list of all. */
const MOST = 3
/** Letters and digits of the shortest part that stands for a whole name. @choice 2, as in "P3". */
const SHORTEST = 2

/** Those of some names that a word stands for which is none of them; none when it stands for none. */
export function namesFor(word: string, names: readonly string[]): readonly string[] {
  const plain = word.trim().toLowerCase()
  return Object.hasOwn(WORDS, plain) ? (WORDS[plain] ?? []).filter((name) => names.includes(name)) : []
}

/**
 * What a word was most likely meant to be of some names: those that are the same but for capital letters, spaces and
 * punctuation, that people have this word for, that are spelled much like it, or that begin or end with it or it with them.
 */
export function meantBy(word: string, names: readonly string[]): readonly string[] {
  const same = names.filter((name) => lettersOf(name) === lettersOf(word))
  if (same.length > 0) return same
  const others = namesFor(word, names)
  if (others.length > 0) return others
  const spelled = nearest(word, names)
  if (spelled !== null) return [spelled]
  const within = names.filter((name) => sharesEnd(lettersOf(name), lettersOf(word)))
  return within.length > MOST ? [] : within
}

function sharesEnd(one: string, other: string): boolean {
  const [part = '', whole = ''] = one.length < other.length ? [one, other] : [other, one]
  return part.length >= SHORTEST && (whole.startsWith(part) || whole.endsWith(part))
}

/** Letters and digits, without accents and in lowercase. */
function lettersOf(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]/gu, '')
    .toLowerCase()
}
