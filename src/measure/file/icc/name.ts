/** Longest name kept, characters. @choice no source: two lines of a terminal. */
const MAX_LENGTH = 200

/**
 * The text of a `desc` tag: `desc` (ICC.1:2001, textDescriptionType) or `mluc` (ICC.1:2022, 10.15), English first.
 * It is a stranger's text, cut to {@link MAX_LENGTH} characters. Null when there is none.
 * @throws RangeError when the tag is shorter than it says
 */
export function readName(tag: Buffer): string | null {
  const type = tag.toString('latin1', 0, 4)
  const text = type === 'desc' ? asciiText(tag) : type === 'mluc' ? localizedText(tag) : null
  const name = text?.split('\0', 1)[0]?.trim().slice(0, MAX_LENGTH)
  return name ? name : null
}

function asciiText(tag: Buffer): string {
  const length = tag.readUInt32BE(8)
  return tag.toString('latin1', 12, 12 + length)
}

/** A `mluc` tag. @source ICC.1:2022, 10.15. */
function localizedText(tag: Buffer): string | null {
  const records = tag.readUInt32BE(8)
  const size = tag.readUInt32BE(12)
  let chosen: number | null = null
  // 12 is the only record size there is; the bound keeps a huge count from looping.
  for (let n = 0; n < records && size === 12 && 16 + 12 * (n + 1) <= tag.length; n++) {
    const at = 16 + 12 * n
    if (tag.toString('latin1', at, at + 2) === 'en') {
      chosen = at
      break
    }
    chosen ??= at
  }
  if (chosen === null) return null
  const length = tag.readUInt32BE(chosen + 4)
  const offset = tag.readUInt32BE(chosen + 8)
  return new TextDecoder('utf-16be').decode(tag.subarray(offset, offset + length))
}
