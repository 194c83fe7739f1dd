import { createHash } from 'node:crypto'
import { readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp, { type Sharp } from 'sharp'
import type { Frame } from '../../../examples/drawing/frame.ts'
import type { Look } from '../../../examples/drawing/look.ts'
import type { Sitter } from '../../../examples/drawing/sitters.ts'
import { drawnPortrait } from '../../drawn.ts'
import { hashOfFiles, keptFolder } from '../../kept.ts'
import { type Labels, type Saving, saved } from './exporting.ts'
import { type Cut, type Deliverable, frameOf, OUTPUTS, pathOf, rawName } from './house.ts'

/** Where a delivered picture comes from: an uncropped frame (a PNG), and the part of it. */
export interface Original {
  readonly frame: Buffer
  readonly cut: Cut
  readonly labels: Labels
  readonly ppi: number
  /** As ordered. */
  readonly size: { readonly widthPx: number; readonly heightPx: number }
}

/** How a file of the delivery differs from one that is right. */
export interface Way {
  /** The sitter who is shown; the one of the name unless told. */
  readonly shown?: Sitter
  /** How the frame differs. */
  readonly picture?: Partial<Frame>
  readonly cut?: Partial<Cut>
  readonly size?: { readonly widthPx: number; readonly heightPx: number }
  readonly saving?: Partial<Saving>
  /** The picture in shades of gray, still saved as RGB. */
  readonly isGray?: boolean
}

/** Frames are drawn once and kept. */
async function frameShown(look: Look, frame: Frame): Promise<Buffer> {
  const hash = createHash('sha256')
    .update(JSON.stringify([look, frame]))
    .digest('hex')
    .slice(0, 16)
  const folder = await keptFolder(join('.cache', 'frames', await drawingHash(), hash), async (made) => {
    const { pixels, widthPx, heightPx } = await drawnPortrait(look, frame)
    const raw = { width: widthPx, height: heightPx, channels: 3 as const }
    const png = await sharp(pixels, { raw }).png({ compressionLevel: 3 }).toBuffer()
    await writeFile(join(made, 'frame.png'), png)
  })
  return readFile(join(folder, 'frame.png'))
}

let known: Promise<string> | undefined
function drawingHash(): Promise<string> {
  known ??= hashOfFiles('examples/drawing').then((hash) => hash.slice(0, 16))
  return known
}

async function originalOf(sitter: Sitter, deliverable: Deliverable, way: Way = {}): Promise<Original> {
  const { shown = sitter, picture, cut } = way
  const frame = await frameShown(shown.look, { ...frameOf(shown), ...picture })
  return {
    frame,
    cut: { ...OUTPUTS[deliverable].cut, ...cut },
    labels: savingOf(sitter, deliverable).labels,
    size: OUTPUTS[deliverable],
    ppi: OUTPUTS[deliverable].ppi,
  }
}

/** A file of the delivery. */
async function fileOf(sitter: Sitter, deliverable: Deliverable, way: Way = {}): Promise<Buffer> {
  const { frame, cut } = await originalOf(sitter, deliverable, way)
  const { widthPx, heightPx } = way.size ?? OUTPUTS[deliverable]
  const pixels = cropped(frame, cut, { widthPx, heightPx })
  const thumbnail = way.saving?.thumbnailOf && { thumbnailOf: frame }
  return saved(way.isGray ? sharp(await gray(pixels)) : pixels, {
    ...savingOf(sitter, deliverable),
    ...way.saving,
    ...thumbnail,
  })
}

function gray(pixels: Sharp): Promise<Buffer> {
  return pixels.grayscale().toColourspace('srgb').png().toBuffer()
}

/** A part of a picture, at a size. */
export function cropped(
  picture: Buffer,
  cut: Cut,
  { widthPx, heightPx }: { widthPx: number; heightPx: number },
): Sharp {
  const part = sharp(picture).extract(cut)
  return cut.width === widthPx && cut.height === heightPx
    ? part
    : part.resize(widthPx, heightPx, { fit: 'fill' })
}

/** How the house saves. */
export function savingOf(sitter: Sitter, deliverable: Deliverable): Saving {
  const { family, given } = sitter
  return {
    labels: {
      creator: 'Osprey Lane in-house studio',
      copyright: 'Osprey Lane Veterinary Group',
      altText: `Portrait of ${given} ${family}`,
      rawName: rawName(sitter),
    },
    ppi: OUTPUTS[deliverable].ppi,
    quality: 92,
    subsampling: '4:4:4',
  }
}

/** A delivery with what is wrong in it, and what the studio has at hand. */
export class Delivery {
  /** What is delivered, by path. */
  readonly files = new Map<string, Buffer>()
  /** Where the pictures come from, by the paths that they should have. */
  readonly originals = new Map<string, Original>()
  /** What no computer can make: the right files of the people in the studio, by path; null for one to be taken away. */
  readonly supply = new Map<string, Buffer | null>()
  /** Right names that only somebody who knows the people can tell, by the wrong ones. */
  readonly known = new Map<string, string>()

  /** Delivers a file that is right, or one in another way. */
  async deliver(sitter: Sitter, deliverable: Deliverable, way: Way = {}, path = pathOf(deliverable, sitter)) {
    this.files.set(path, await fileOf(sitter, deliverable, way))
    this.originals.set(pathOf(deliverable, sitter), await originalOf(sitter, deliverable, way))
  }

  /** Has the right file at hand, for what somebody must decide or do again. */
  async have(sitter: Sitter, deliverable: Deliverable) {
    const path = pathOf(deliverable, sitter)
    this.supply.set(path, await fileOf(sitter, deliverable))
  }

  move(from: string, to: string) {
    const bytes = this.files.get(from)
    if (!bytes) throw new Error(`The delivery has no ${from}.`)
    this.files.delete(from)
    this.files.set(to, bytes)
  }
}
