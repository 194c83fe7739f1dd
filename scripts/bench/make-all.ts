import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import process from 'node:process'
import sharp from 'sharp'
import { encodedAt } from '../../src/prepare/encode/encoded-at.ts'
import { USUAL } from '../../src/prepare/encode/manners.ts'
import { decodeMaster } from '../../src/prepare/pixels/decode.ts'
import { iccProfile } from '../../src/prepare/pixels/icc-profile.ts'
import { resampled } from '../../src/prepare/pixels/resample.ts'
import { targetSpace } from '../../src/prepare/pixels/target-space.ts'

/*
 * Makes two files of every master of a folder, one after the other, and does nothing else with them:
 * node make-all.js FOLDER ours|codes|light
 * codes, light: by the picture library alone, in the space of codes, as it does by default, or in linear light.
 */
const [folder = '', how = ''] = process.argv.slice(2)

/** Parts of a master of 2400 x 3000 px, and how large they get. */
const FILES = [
  {
    crop: { leftPx: 100, topPx: 60, widthPx: 2200, heightPx: 2750 },
    size: { widthPx: 1200, heightPx: 1500 },
  },
  {
    crop: { leftPx: 200, topPx: 100, widthPx: 2000, heightPx: 2000 },
    size: { widthPx: 800, heightPx: 800 },
  },
] as const
const JPEG = { quality: 95, chromaSubsampling: '4:4:4' } as const
const ENCODING = { format: 'jpeg', subsampling: '4:4:4', progressive: false, tiff: 'lzw' } as const
const BLOCKS = {
  ...{ icc: iccProfile('sRGB'), exif: Buffer.alloc(0), xmp: Buffer.alloc(0), iim: Buffer.alloc(0) },
  ...{ ppi: 300, entries: { main: [], exif: [] } },
}

async function ours(content: Buffer): Promise<void> {
  const master = await decodeMaster(content)
  for (const { crop, size } of FILES) {
    const picture = resampled(master, crop, size, targetSpace('sRGB'), 8)
    await encodedAt(picture, ENCODING, BLOCKS, JPEG.quality, USUAL)
  }
}

async function library(content: Buffer): Promise<void> {
  const { data, info } = await sharp(content).autoOrient().raw().toBuffer({ resolveWithObject: true })
  const raw = { width: info.width, height: info.height, channels: info.channels }
  for (const { crop, size } of FILES) {
    const picture = sharp(data, { raw })
    if (how === 'light') picture.pipelineColourspace('scrgb')
    await picture
      .extract({ left: crop.leftPx, top: crop.topPx, width: crop.widthPx, height: crop.heightPx })
      .resize(size.widthPx, size.heightPx, { fit: 'fill', kernel: 'mks2021' })
      .toColourspace('srgb')
      .withIccProfile('srgb')
      .jpeg(JPEG)
      .toBuffer()
  }
}

sharp.cache(false)
for (const file of await readdir(folder)) {
  const content = await readFile(join(folder, file))
  await (how === 'ours' ? ours(content) : library(content))
}
