import sharp from 'sharp'
import type { Frame } from './frame.ts'

/**
 * The sitter's soft shadow on the backdrop: stops lost per pixel, or null without one. It falls away from the key
 * light and down, from the shoulders rather than the head, as when the key light stands high.
 */
export async function castShadow(sitter: Buffer, frame: Frame, scale: number): Promise<Float32Array | null> {
  const depth = frame.backdrop.castShadowStops ?? 0
  if (depth <= 0) return null
  const { widthPx, heightPx } = frame
  const shiftX = Math.round((frame.key.side === 'left' ? 1 : -1) * 22 * scale)
  const shiftY = Math.round(16 * scale)
  const mask = Buffer.alloc(widthPx * heightPx)
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const [sx, sy] = [x - shiftX, y - shiftY]
      if (sx < 0 || sx >= widthPx || sy < 0) continue
      mask[y * widthPx + x] = sitter[(sy * widthPx + sx) * 4 + 3] ?? 0
    }
  }
  const soft = await sharp(mask, { raw: { width: widthPx, height: heightPx, channels: 1 } })
    .blur(Math.max(2, 12 * scale))
    .extractChannel(0)
    .raw()
    .toBuffer()
  return Float32Array.from(soft, (alpha) => (depth * alpha) / 255)
}
