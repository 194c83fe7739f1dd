/**
 * What people type for rules that have another name, by the rules that they mean: a first one to read, and others.
 * Common practice, no source.
 */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  dpi: ['resolution', 'pixel-size'],
  ppi: ['resolution', 'pixel-size'],
  size: ['pixel-size', 'file-size', 'aspect-ratio'],
  dimensions: ['pixel-size', 'aspect-ratio'],
  ratio: ['aspect-ratio'],
  gps: ['metadata-forbidden'],
  location: ['metadata-forbidden'],
  privacy: ['metadata-forbidden'],
  copyright: ['metadata-required'],
  exif: ['metadata-required', 'metadata-forbidden'],
  iptc: ['metadata-required', 'metadata-forbidden'],
  icc: ['color-space'],
  profile: ['color-space'],
  srgb: ['color-space'],
  monochrome: ['color-space'],
  grayscale: ['color-space'],
  quality: ['compression'],
  jpeg: ['compression', 'file-format'],
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
  background: ['background-lightness', 'background-unevenness', 'background-tint', 'backdrop-edge'],
  backdrop: ['background-lightness', 'background-unevenness', 'background-tint', 'backdrop-edge'],
  thumbnail: ['stale-preview'],
  preview: ['stale-preview'],
  rotation: ['orientation', 'tilt'],
  exposure: ['clipping'],
  light: ['key-side', 'clipping'],
  duplicate: ['duplicate-picture'],
  missing: ['roster', 'variants'],
}

/** The rules that a word means which is no rule's name; none when it means none. */
export function rulesMeantBy(word: string): readonly string[] {
  const plain = word.toLowerCase()
  return Object.hasOwn(WORDS, plain) ? (WORDS[plain] ?? []) : []
}

/** All words that mean a rule, for those that are misspelled. */
export const RULE_WORDS: readonly string[] = Object.keys(WORDS)
