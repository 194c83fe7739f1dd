import { brandsOf } from '../bytes/boxes.ts'
import { FRAME, MAX_CHUNKS, SIGNATURE_LENGTH } from '../bytes/png.ts'

/** A WebP with more than one frame: the animation flag of its VP8X chunk (RFC 9649, 2.7.1). */
export function isAnimatedWebp(webp: Buffer): boolean {
  return webp.toString('latin1', 12, 16) === 'VP8X' && ((webp[20] ?? 0) & 0x02) !== 0
}

/** A PNG with an acTL chunk before its data (PNG, third edition, 11.3.7.1). */
export function isAnimatedPng(png: Buffer): boolean {
  let at = SIGNATURE_LENGTH
  // More chunks before the picture's data are refused as a whole.
  for (let n = 0; at + 8 <= png.length && n < MAX_CHUNKS; at += FRAME + png.readUInt32BE(at), n++) {
    const type = png.toString('latin1', at + 4, at + 8)
    if (type === 'acTL') return true
    if (type === 'IDAT') return false
  }
  return false
}

/** An AVIF that is an image sequence first of all (AV1 Image File Format, 6.2: brand `avis`). */
export function isAnimatedAvif(avif: Buffer): boolean {
  return brandsOf(avif)[0] === 'avis'
}
