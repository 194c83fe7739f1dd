import { mkdir, readFile, rename, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp, { type Sharp } from 'sharp'
import type { Decodable } from '../../src/measure/schema/formats.ts'
import { segment, withSegments } from '../../tests/measure/file/bytes/jpeg-writer.ts'
import { resource, resourceSegment } from '../../tests/measure/metadata/formats/iim-writer.ts'
import { seeded } from '../../tests/random.ts'

/** A sound picture that costs as much as one of its kind can: just within the limits, or beyond them. */
interface Heavy {
  readonly name: string
  readonly make: () => Sharp | Promise<Buffer>
}

const PORTRAIT = 'examples/osprey-lane/delivery-clean/print/Nair-Priya_15388.jpg'
const NO_LIMIT = { limitInputPixels: false }

/** Of one color, so that its file is small. */
function flat(edge: number, channels: 3 | 4 = 3): Sharp {
  const background = { r: 200, g: 180, b: 160, alpha: 0.5 }
  return sharp({ create: { width: edge, height: edge, channels, background }, ...NO_LIMIT })
}

/** Of noise, so that its file is large and every code is read. */
function noise(edge: number): Sharp {
  const random = seeded(edge)
  const data = Buffer.alloc(3 * edge * edge)
  for (let i = 0; i < data.length; i++) data[i] = 256 * random()
  return sharp(data, { raw: { width: edge, height: edge, channels: 3 } })
}

/** A portrait whose face fills the frame, so that all that is measured of it is large. */
function portrait(height: number): Sharp {
  return sharp(PORTRAIT, NO_LIMIT).resize({ height, kernel: 'cubic' })
}

/** As many previews as are compared, each of as many pixels as one may have. */
async function previews(): Promise<Buffer> {
  const kinds = await Promise.all(
    [true, false].map((progressive) => flat(4999).jpeg({ progressive }).toBuffer()),
  )
  // Photoshop's resource of a thumbnail: 28 bytes of sizes before its JPEG. Blocks run on from one segment to the next.
  const resources = kinds.map((jpeg) => resource(0x040c, Buffer.concat([Buffer.alloc(28), jpeg])))
  const all = Buffer.concat([...resources, ...resources, ...resources, ...resources])
  const parts = Array.from({ length: Math.ceil(all.length / 65_000) }, (_, n) =>
    segment(0xed, resourceSegment(all.subarray(65_000 * n, 65_000 * (n + 1)))),
  )
  return withSegments(await flat(9400).jpeg().toBuffer(), parts)
}

const deep = (picture: Sharp) => picture.toColourspace('rgb16')
const turned = (picture: Sharp) => picture.withMetadata({ orientation: 6 })
const deflate = { compression: 'deflate' } as const

const HEAVY: Readonly<Record<Decodable, readonly Heavy[]>> = {
  jpeg: [
    { name: 'flat', make: () => flat(12_600).jpeg() },
    { name: 'turned', make: () => turned(flat(11_000)).jpeg() },
    { name: 'progressive', make: () => flat(9000).jpeg({ progressive: true, chromaSubsampling: '4:4:4' }) },
    { name: 'progressive-beyond', make: () => flat(12_600).jpeg({ progressive: true }) },
    { name: 'cmyk', make: () => flat(8100).toColourspace('cmyk').jpeg({ progressive: true }) },
    { name: 'grey', make: () => flat(12_600).grayscale().jpeg() },
    {
      name: 'noise',
      make: () => noise(3000).jpeg({ quality: 100, chromaSubsampling: '4:4:4', progressive: true }),
    },
    { name: 'portrait', make: () => portrait(13_900).jpeg() },
    { name: 'previews', make: previews },
  ],
  png: [
    { name: 'flat', make: () => flat(12_600).png() },
    { name: 'beyond', make: () => flat(12_600).png({ progressive: true }) },
    { name: 'interlaced', make: () => flat(11_000).png({ progressive: true }) },
    { name: 'deep', make: () => deep(flat(6950, 4)).png({ progressive: true }) },
    { name: 'palette', make: () => flat(12_600).png({ palette: true, colors: 2 }) },
    { name: 'noise', make: () => noise(2500).png({ progressive: true }) },
    { name: 'portrait', make: () => portrait(13_900).png() },
  ],
  tiff: [
    { name: 'flat', make: () => flat(11_000).tiff({ compression: 'lzw' }) },
    { name: 'turned', make: () => turned(flat(9000)).tiff(deflate) },
    { name: 'deep', make: () => deep(flat(6950, 4)).tiff(deflate) },
    {
      name: 'tiles',
      make: () => flat(11_000).tiff({ ...deflate, tile: true, tileWidth: 16, tileHeight: 16 }),
    },
    { name: 'float', make: () => flat(5600, 4).toColourspace('scrgb').tiff(deflate) },
    {
      name: 'bits',
      make: () =>
        flat(12_600).grayscale().toColourspace('b-w').tiff({ compression: 'ccittfax4', bitdepth: 1 }),
    },
    { name: 'jpeg', make: () => flat(11_000).tiff({ compression: 'jpeg' }) },
    { name: 'noise', make: () => noise(2500).tiff(deflate) },
    { name: 'portrait', make: () => portrait(12_300).tiff(deflate) },
  ],
  webp: [
    { name: 'flat', make: () => flat(9000).webp({ effort: 0 }) },
    { name: 'beyond', make: () => flat(12_600).webp({ effort: 0 }) },
    { name: 'lossless', make: () => flat(7450, 4).webp({ effort: 0, lossless: true }) },
    { name: 'turned', make: () => turned(flat(7800)).webp({ effort: 0 }) },
    { name: 'noise', make: () => noise(2500).webp({ effort: 0, lossless: true }) },
    { name: 'portrait', make: () => portrait(9900).webp({ effort: 0 }) },
  ],
  avif: [
    { name: 'flat', make: () => flat(6170).avif({ effort: 0 }) },
    { name: 'beyond', make: () => flat(9000).avif({ effort: 0 }) },
    { name: 'deep', make: () => flat(5380).avif({ effort: 0, bitdepth: 10, chromaSubsampling: '4:4:4' }) },
    { name: 'clear', make: () => flat(5600, 4).avif({ effort: 0 }) },
    { name: 'noise', make: () => noise(1500).avif({ effort: 0, quality: 100, chromaSubsampling: '4:4:4' }) },
    { name: 'portrait', make: () => portrait(6800).avif({ effort: 0 }) },
  ],
}

/** The heavy pictures of a format, made once and kept in a folder. */
export async function heavyPictures(
  format: Decodable,
  folder: string,
  told: (name: string) => void,
): Promise<Buffer[]> {
  await mkdir(folder, { recursive: true })
  const pictures: Buffer[] = []
  for (const { name, make } of HEAVY[format]) {
    const path = join(folder, `${name}.${format}`)
    const known = await readFile(path).catch(() => null)
    if (!known) {
      told(`${format} ${name}`)
      const made = await make()
      await writeFile(`${path}.part`, Buffer.isBuffer(made) ? made : await made.toBuffer())
      await rename(`${path}.part`, path)
    }
    pictures.push(known ?? (await readFile(path)))
  }
  return pictures
}
