import type { Blocks } from '../containers/blocks.ts'
import type { Finished } from '../pixels/convert.ts'
import { type Encoding, encodedAt } from './encoded-at.ts'

/** What a file may weigh and how well it has to be encoded. */
export interface EncodeAsk {
  /** Quality 1..100, both ends included. */
  readonly quality: { readonly min: number; readonly max: number }
  /** Bytes of the whole file; Infinity without a limit. */
  readonly mostBytes: number
}

export interface Encoded {
  readonly bytes: Buffer
  /** Null for formats without loss. */
  readonly quality: number | null
  /** Whether even the least quality gives more bytes than may be. */
  readonly tooLarge: boolean
}

/** Formats whose bytes don't depend on a quality, as they are used here. */
const LOSSLESS: readonly string[] = ['png', 'tiff']

/** The file of the highest quality that is within its limit of bytes; found by bisection, since more quality takes more bytes. */
export async function encode(
  picture: Finished,
  encoding: Encoding,
  blocks: Blocks,
  { quality, mostBytes }: EncodeAsk,
): Promise<Encoded> {
  const at = (value: number, isThorough = false) => encodedAt(picture, encoding, blocks, value, isThorough)
  const best = await at(quality.max)
  if (LOSSLESS.includes(encoding.format))
    return { bytes: best, quality: null, tooLarge: best.length > mostBytes }
  if (best.length <= mostBytes) return { bytes: best, quality: quality.max, tooLarge: false }
  let fitting: Encoded | null = null
  let [low, high] = [quality.min, quality.max - 1]
  while (low <= high) {
    const middle = Math.ceil((low + high) / 2)
    const bytes = await at(middle)
    if (bytes.length <= mostBytes) {
      fitting = { bytes, quality: middle, tooLarge: false }
      low = middle + 1
    } else high = middle - 1
  }
  // Thorough JPEGs are a tenth smaller, which may be worth a quality or two.
  const next = (fitting?.quality ?? quality.min - 1) + 1
  for (let value = next; encoding.format === 'jpeg' && value <= quality.max; value++) {
    const bytes = await at(value, true)
    if (bytes.length > mostBytes) break
    fitting = { bytes, quality: value, tooLarge: false }
  }
  return fitting ?? { bytes: await at(quality.min), quality: quality.min, tooLarge: true }
}
