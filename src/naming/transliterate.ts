/** Ways to write names in the letters A to Z. */
export const TRANSLITERATIONS = ['base', 'passport'] as const
export type Transliteration = (typeof TRANSLITERATIONS)[number]

/**
 * Letters that have no unaccented form by Unicode's decompositions.
 * @source ICAO Doc 9303-3, section 6, table A, from memory; for ß, æ, œ, ø, ð, đ, ħ and ł the root collation of CLDR agrees. The schwa, the long s
 * with its dot and the marks are common practice, no source.
 */
const LETTERS: Readonly<Record<string, string>> = {
  ß: 'ss',
  æ: 'ae',
  œ: 'oe',
  ø: 'o',
  ð: 'd',
  đ: 'd',
  ħ: 'h',
  ł: 'l',
  þ: 'th',
  ı: 'i',
  ŋ: 'n',
  ŧ: 't',
  ə: 'e',
  '·': '',
  '‘': "'",
  '’': "'",
  ʼ: "'",
  '‐': '-',
  '‑': '-',
  '–': '-',
}

/** Letters that passports write with two. @source ICAO Doc 9303-3, section 6, table A, from memory; German and Danish collations of CLDR agree. */
const PAIRS: Readonly<Record<string, string>> = { ä: 'ae', ö: 'oe', ü: 'ue', ø: 'oe', å: 'aa' }

/** Every letter with its marks. */
const LETTER = /\P{M}\p{M}*/gu

/**
 * A text in the letters A to Z: marks are left out, and letters that have no plain form are written with others. What is of another
 * script stays, since its spelling is for its bearer to say.
 * @param how `base`: ä is a; `passport`: ä is ae, as machine-readable passports have it
 */
export function transliterated(text: string, how: Transliteration): string {
  const isUpper = (letter: string | undefined) => letter !== undefined && /\p{Lu}/u.test(letter)
  const letters = text.normalize('NFC').match(LETTER) ?? []
  return letters
    .map((letter, index) => {
      const plain = plainOf(letter, how)
      if (!isUpper(letter) || plain.length < 2) return plain
      // Among capital letters, a pair has two of them.
      const isAmongCapitals = isUpper(letters[index + 1]) || (index > 0 && isUpper(letters[index - 1]))
      return isAmongCapitals ? plain.toUpperCase() : plain
    })
    .join('')
}

/** A text, in NFC, as the names of a pattern spell it. */
export function spelledIn(naming: { readonly transliterate?: Transliteration } | null, text: string): string {
  return naming?.transliterate ? transliterated(text, naming.transliterate) : text.normalize('NFC')
}

/** Whether a text is in the letters A to Z, with whatever else ASCII has. */
export function isPlain(text: string): boolean {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: ASCII begins with them.
  return /^[\x00-\x7f]*$/.test(text)
}

/** One letter; a pair with its first in capitals where it was one. */
function plainOf(letter: string, how: Transliteration): string {
  if (isPlain(letter)) return letter
  const pair = how === 'passport' ? PAIRS[letter.toLowerCase()] : undefined
  const bare = pair ?? bareOf(letter, how)
  const isCapital = letter !== letter.toLowerCase()
  return isCapital ? bare.charAt(0).toUpperCase() + bare.slice(1) : bare
}

function bareOf(letter: string, how: Transliteration): string {
  const bases = [...letter.normalize('NFKD').replace(/\p{M}/gu, '')]
  const plain = bases.map((base) => {
    const small = base.toLowerCase()
    return (how === 'passport' ? PAIRS[small] : undefined) ?? LETTERS[small] ?? base
  })
  const text = plain.join('')
  return isPlain(text) ? text : letter
}
