/** Longest message of the decoder that is kept, characters. @choice no source: two lines of a terminal. */
const MAX_WORDS = 200

/** The decoder's own words in one line, for a fault's detail: its last line, which names the cause. */
export function decoderWords(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error)
  const lines = message
    .split('\n')
    .map((line) => line.trim())
    .filter(Boolean)
  return (lines.at(-1) ?? '').slice(0, MAX_WORDS)
}
