import sharp, { type Sharp } from 'sharp'
import type { Decodable } from '../../../src/measure/schema/formats.ts'
import { iccChunks, segment, withSegments } from '../../measure/file/bytes/jpeg-writer.ts'
import { chunk, iccp, physical, withChunks } from '../../measure/file/bytes/png-writer.ts'
import { writeProfile } from '../../measure/file/icc/icc-writer.ts'
import { xmpSegment } from '../../measure/metadata/formats/xmp-writer.ts'
import { scene, sitter } from '../../measure/scene.ts'
import {
  COPYRIGHT,
  CREATOR,
  exif,
  exifPart,
  HEIGHT,
  iim,
  type Privacy,
  resourcesPart,
  WIDTH,
  xmp,
} from './blocks.ts'

/** A well-formed picture with rich metadata, of which spoiled ones are made. */
export interface Original {
  readonly name: string
  readonly format: Decodable
  readonly privacy: Privacy
  readonly content: Buffer
  /** Rules of the strict spec that it meets as it is. */
  readonly meets: readonly string[]
}

const ALL = [
  'file-format',
  'pixel-size',
  'resolution',
  'color-space',
  'intact',
  'metadata-required',
  'stale-preview',
]
const without = (...rules: readonly string[]) => ALL.filter((rule) => !rules.includes(rule))

/** The drawn sitter before a graded wall: soft, so that damage shows. */
function drawn(): Sharp {
  const inSitter = sitter(0.1)
  const { data } = scene(WIDTH, HEIGHT, (x, y) =>
    inSitter(x, y) ? [200 - 40 * x, 150 - 30 * y, 120] : [235 - 20 * y, 232 - 15 * x, 228],
  )
  return sharp(data, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
}

/** All originals; the same bytes on every run with the same picture library. */
export async function drawOriginals(): Promise<Original[]> {
  const originals: Original[] = []
  for (const privacy of ['clean', 'private'] as const) {
    const meets = (rules: readonly string[]) =>
      privacy === 'clean' ? [...rules, 'metadata-forbidden'] : rules
    const add = async (name: string, format: Decodable, rules: readonly string[], content: Promise<Buffer>) =>
      originals.push({
        name: `${name} ${privacy}`,
        format,
        privacy,
        meets: meets(rules),
        content: await content,
      })
    const preview = await drawn().resize(64, 80).jpeg().toBuffer()
    const rich = async (jpeg: Sharp) =>
      withSegments(await jpeg.toBuffer(), [
        segment(0xe1, exifPart(privacy, preview)),
        segment(0xe1, xmpSegment(xmp(privacy))),
        segment(0xed, resourcesPart(privacy)),
        ...iccChunks(writeProfile(), 400),
      ])
    const saved = (picture: Sharp) =>
      picture
        .withExif(asStrings(privacy))
        .withXmp(xmp(privacy).toString())
        .withIccProfile('srgb')
        .withMetadata({ density: 300 })
    await add('baseline', 'jpeg', ALL, rich(drawn().jpeg({ quality: 90 })))
    await add(
      'progressive',
      'jpeg',
      ALL,
      rich(drawn().jpeg({ progressive: true, chromaSubsampling: '4:4:4' })),
    )
    await add('cmyk', 'jpeg', without('color-space'), rich(drawn().toColourspace('cmyk').jpeg()))
    await add('png', 'png', ALL, richPng(drawn().png(), privacy))
    await add(
      'deep png',
      'png',
      ALL,
      richPng(drawn().toColourspace('rgb16').png({ progressive: true }), privacy),
    )
    await add('palette png', 'png', ALL, richPng(drawn().png({ palette: true }), privacy))
    await add(
      'lzw tiff',
      'tiff',
      ALL,
      saved(drawn()).tiff({ compression: 'lzw', predictor: 'horizontal' }).toBuffer(),
    )
    await add(
      'tiled tiff',
      'tiff',
      ALL,
      saved(drawn()).tiff({ compression: 'deflate', tile: true }).toBuffer(),
    )
    await add('plain tiff', 'tiff', ALL, saved(drawn()).tiff({ compression: 'none' }).toBuffer())
    await add('jpeg tiff', 'tiff', ALL, saved(drawn()).tiff({ compression: 'jpeg' }).toBuffer())
    await add('lossy webp', 'webp', ALL, saved(drawn()).webp({ quality: 90 }).toBuffer())
    await add('lossless webp', 'webp', ALL, saved(drawn()).webp({ lossless: true }).toBuffer())
    await add('avif', 'avif', ALL, saved(drawn()).avif({ effort: 0 }).toBuffer())
  }
  return originals
}

async function richPng(png: Sharp, privacy: Privacy): Promise<Buffer> {
  const text = (keyword: string, value: string) =>
    chunk('tEXt', Buffer.from(`${keyword}\0${value}`, 'latin1'))
  return withChunks(await png.toBuffer(), [
    physical(11811, 11811, 1),
    iccp(writeProfile()),
    chunk('eXIf', exif(privacy)),
    chunk('iTXt', Buffer.concat([Buffer.from('XML:com.adobe.xmp\0\0\0\0\0'), xmp(privacy)])),
    text('Author', CREATOR),
    text('Copyright', COPYRIGHT),
    text('Raw profile type iptc', `\niptc\n${iim(privacy).length}\n${iim(privacy).toString('hex')}\n`),
  ])
}

function asStrings(privacy: Privacy) {
  return {
    IFD0: { Artist: CREATOR, Copyright: COPYRIGHT },
    ...(privacy === 'private' && {
      IFD2: { BodySerialNumber: 'SN-4711' },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: '51/1 30/1 12/1',
        GPSLongitudeRef: 'W',
        GPSLongitude: '0/1 7/1 39/1',
      },
    }),
  }
}
