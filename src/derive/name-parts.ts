/** A run of letters, of digits, or of what divides them. */
export interface NamePart {
  readonly kind: 'letters' | 'digits' | 'divider'
  readonly text: string
}

// Marks belong to the letter before them (NFC leaves some); an apostrophe within a name is part of it.
const PARTS = /(?<letters>\p{L}(?:[\p{L}\p{M}]|['’](?=\p{L}))*)|(?<digits>[0-9]+)|(?<divider>[^\p{L}0-9]+)/gu

/** Divides a file's name without its extension. */
export function partsOf(stem: string): NamePart[] {
  return Array.from(stem.normalize('NFC').matchAll(PARTS), ({ 0: text, groups }) => ({
    kind: groups?.letters ? 'letters' : groups?.digits ? 'digits' : 'divider',
    text,
  }))
}

/** What names must share to be laid side by side: "letters - letters _ digits". */
export function shapeOf(parts: readonly NamePart[]): string {
  return parts.map(({ kind, text }) => (kind === 'divider' ? text : kind)).join('\u0000')
}

export function splitPath(path: string): { folder: string | null; stem: string; extension: string } {
  const names = path.split('/')
  const name = names.at(-1) ?? ''
  const extension = /\.[A-Za-z0-9]{1,8}$/.exec(name)?.[0] ?? ''
  return { folder: names.at(-2) ?? null, stem: name.slice(0, name.length - extension.length), extension }
}
