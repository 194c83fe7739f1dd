import sharp from 'sharp'

// Each file is decoded once, so a cache only holds memory; several files are decoded at a time, so threads within one
// only get in each other's way.
sharp.cache(false)
sharp.concurrency(1)

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

export { sharp as decoder }
