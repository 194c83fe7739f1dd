import { decoder } from '../measure/file/decoder.ts'
import { examine } from '../measure/file/examine.ts'
import { LIMITS } from '../measure/file/read-file.ts'
import { isDecodable } from '../measure/schema/formats.ts'

// As long as measuring may take.
const MOST_SECONDS = 60

/**
 * The bytes of a picture that may be decoded to be looked at, by the rules that measuring has; null for any other.
 * @param share memory that decoding may take just now, in bytes; as much as the limits allow by default
 * @throws TooMuchAtOnce when it would take more memory than its share
 */
export async function viewable(data: Buffer, format: string | null, share?: number): Promise<Buffer | null> {
  if (!isDecodable(format)) return null
  const limits = share === undefined ? {} : { share }
  const examined = await examine(data, format, { decode: true, limits: LIMITS, ...limits })
  return examined.fault ? null : (examined.container.lean ?? data)
}

/** As displayed, in sRGB, on white. @param data what `viewable` gave, or a picture of our own */
export function opened(data: Buffer) {
  return decoder(data, { failOn: 'none', limitInputPixels: LIMITS.pixels })
    .timeout({ seconds: MOST_SECONDS })
    .autoOrient()
    .flatten({ background: '#ffffff' })
    .toColourspace('srgb')
}
