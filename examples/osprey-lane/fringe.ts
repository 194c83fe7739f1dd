import sharp from 'sharp'

interface Pixels {
  readonly pixels: Buffer
  readonly widthPx: number
  readonly heightPx: number
}

/** How far the paper's own codes lie apart. */
const PAPER_CODES = 14
/** How far a careless mask reaches into the old backdrop, px. */
const REACH_PX = 2

/** The sitter cut out by a mask that takes a line of the old backdrop along, whose color that is, and put before the same paper. */
export async function fringed(
  { pixels, widthPx, heightPx }: Pixels,
  color: readonly number[],
): Promise<Buffer> {
  const sitter = withoutPaper(pixels, widthPx, heightPx)
  const mask = await sharp(sitter, { raw: { width: widthPx, height: heightPx, channels: 1 } })
    // What is dark counts as the object there.
    .erode(REACH_PX)
    .blur(0.5)
    .extractChannel(0)
    .raw()
    .toBuffer()
  const out = Buffer.from(pixels)
  for (let i = 0; i < mask.length; i++) {
    if (sitter[i] !== 0) continue
    const share = (mask[i] as number) / 255
    for (let c = 0; c < 3; c++)
      out[3 * i + c] = Math.round((1 - share) * (pixels[3 * i + c] as number) + share * (color[c] as number))
  }
  return out
}

/** 255 where the paper can't be reached from the upper left corner over the paper's own color. */
function withoutPaper(pixels: Buffer, widthPx: number, heightPx: number): Buffer {
  const sitter = Buffer.alloc(widthPx * heightPx, 255)
  const isPaper = (i: number) =>
    [0, 1, 2].every((c) => Math.abs((pixels[3 * i + c] as number) - (pixels[c] as number)) <= PAPER_CODES)
  const open = [0]
  for (let i = open.pop(); i !== undefined; i = open.pop()) {
    if (sitter[i] === 0 || !isPaper(i)) continue
    sitter[i] = 0
    const x = i % widthPx
    if (x > 0) open.push(i - 1)
    if (x < widthPx - 1) open.push(i + 1)
    if (i >= widthPx) open.push(i - widthPx)
    if (i < widthPx * (heightPx - 1)) open.push(i + widthPx)
  }
  return sitter
}
