import sharp from 'sharp'

interface Pixels {
  readonly pixels: Buffer
  readonly widthPx: number
  readonly heightPx: number
}

export interface Hole {
  readonly x: number
  readonly y: number
  readonly width: number
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

/** How far from the left edge of the frame paper is that a hole shows, px. */
const PAPER_LEFT_PX = 8

/** The same with a round hole through which the paper shows: its middle and width, in fractions of the frame. */
export function holed({ pixels, widthPx, heightPx }: Pixels, hole: Hole): Buffer {
  const out = Buffer.from(pixels)
  const radius = (hole.width * widthPx) / 2
  const [middleX, middleY] = [hole.x * widthPx, hole.y * heightPx]
  for (let y = Math.floor(middleY - radius); y <= middleY + radius; y++) {
    for (let x = Math.floor(middleX - radius); x <= middleX + radius; x++) {
      const share = Math.min(1, Math.max(0, radius + 0.5 - Math.hypot(x + 0.5 - middleX, y + 0.5 - middleY)))
      // Of the paper beside the head, since below it is all shoulders.
      const from = 3 * (Math.floor(y / 2) * widthPx + PAPER_LEFT_PX + x - Math.floor(middleX - radius))
      const to = 3 * (y * widthPx + x)
      for (let c = 0; c < 3; c++)
        out[to + c] = Math.round(
          (1 - share) * (pixels[to + c] as number) + share * (pixels[from + c] as number),
        )
    }
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
