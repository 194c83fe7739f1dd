/**
 * Splits a text that holds several values, divided by semicolons; a value in double quotes may hold some itself, and
 * quotes within it are doubled. MWG Guidelines 2.0, 5.3 "Creator", for Exif Artist.
 */
export function splitList(text: string): string[] {
  const values = text.match(/\s*"(?:[^"]|"")*"\s*(?=;|$)|[^;]+/g) ?? []
  return values
    .map((value) => value.trim())
    .map((value) => (/^".*"$/s.test(value) ? value.slice(1, -1).replaceAll('""', '"') : value))
    .filter((value) => value !== '')
}
