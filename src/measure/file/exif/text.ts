/** Longest text of strangers that is kept, characters. @source the longest that IIM allows for any of these fields, the caption (IIM 4.2, 2:120). */
const LONGEST = 2000

/** Most texts of a list that are kept. @choice no source: far more than a picture has creators, and few enough for a report. */
const MOST = 100

/** Trimmed, and cut to {@link LONGEST} characters. */
export function clipped(text: string): string {
  const trimmed = text.trim()
  if (trimmed.length <= LONGEST) return trimmed
  // A character beyond the basic plane takes two units: cut by characters, not through one.
  return Array.from(trimmed.slice(0, 2 * LONGEST))
    .slice(0, LONGEST)
    .join('')
}

/** The texts that are not blank, each clipped, at most 100 of them, each once. */
export function clippedList(texts: readonly string[]): string[] {
  const seen = new Set<string>()
  for (const text of texts) {
    const value = clipped(text)
    if (value !== '') seen.add(value)
    if (seen.size === MOST) break
  }
  return [...seen]
}

const STRICT = new TextDecoder('utf-8', { fatal: true })

/**
 * Text in UTF-8 where it is that, else in Windows-1252, of which Latin-1 is a part. NULs at the end are padding.
 * @param stated whether the file states that it is UTF-8: a last character that was cut through, as IIM's limits in
 *   bytes do, is left out then, and what is no UTF-8 shows as U+FFFD
 */
export function decodeText(bytes: Buffer, stated = false): string {
  const text = bytes.subarray(0, lengthWithoutPadding(bytes))
  // A streaming decoder waits for the rest of a cut character instead of refusing it.
  if (stated) return new TextDecoder('utf-8').decode(text, { stream: true })
  try {
    return STRICT.decode(text)
  } catch {
    // Node 20 takes Windows-1252 for Latin-1 unless it streams.
    return new TextDecoder('windows-1252').decode(text, { stream: true })
  }
}

function lengthWithoutPadding(bytes: Buffer): number {
  let length = bytes.length
  while (length > 0 && bytes[length - 1] === 0) length--
  return length
}

/** Whether there is nothing but NULs and spaces, with which cameras fill what they have nothing for. @source ASCII (ISO/IEC 646). */
export function isBlank(bytes: Buffer): boolean {
  return bytes.every((byte) => byte === 0 || byte === 0x20)
}
