import { readDirectory } from '../../file/bytes/tiff.ts'
import { type Exif, readExif } from '../../file/exif/exif.ts'
import type { Opaque, Unreadable } from '../../schema/metadata-facts.ts'
import { type Iim, readIim } from '../formats/iim.ts'
import { readXmp, type Xmp } from '../formats/xmp.ts'
import { MAX_PACKET } from './extended-xmp.ts'
import { RESOURCE, readResources } from './photoshop.ts'
import { hiddenPicture, type RawBlocks, type StoredPreview } from './raw-blocks.ts'
import { directoryBlocks } from './tiff-blocks.ts'

/** The metadata blocks of a file, read. */
export interface Blocks {
  readonly exif: readonly Exif[]
  readonly xmp: readonly Xmp[]
  /** The datasets of the first IIM block. */
  readonly iim: Iim | null
  /** What IIM's digest was when XMP was last brought in line with it, hexadecimal; null when the file does not say. */
  readonly iimDigest: string | null
  readonly texts: ReadonlyMap<string, string>
  readonly comments: number
  /** Previews beside the one of each Exif block. */
  readonly previews: readonly StoredPreview[]
  readonly opaque: readonly Opaque[]
  readonly unreadable: readonly Unreadable[]
}

/** Most blocks of a kind that are read. @choice a file has one or two; the bound keeps one with thousands cheap, no source. */
const MAX_BLOCKS = 16

/** Most packets of XMP, which takes the longest. @choice the main and the extended packet, and copies in other places, no source. */
const MAX_PACKETS = 4

/** Format, sizes and depths before the JPEG of a thumbnail, bytes. @source Adobe Photoshop File Formats Specification, "Thumbnail resource format". */
const THUMBNAIL_HEAD = 28

/** Reads what was found; a block that can't be read is told and hides no other. Never throws. */
export function readBlocks(given: RawBlocks): Blocks {
  const raw = withThoseInExif(given)
  const unreadable = [...raw.unreadable]
  const { resources, damaged } = readResources(raw.resources ?? Buffer.alloc(0))
  if (damaged) unreadable.push({ where: 'Photoshop resources', why: 'damaged' })
  const of = (id: number) => resources.filter((resource) => resource.id === id).map(({ data }) => data)

  const structures = [
    ...raw.exif,
    ...of(RESOURCE.exif).map((tiff) => ({ where: 'EXIF', tiff, isFile: false })),
  ]
  const packets = [...raw.xmp, ...of(RESOURCE.xmp).map((packet) => ({ where: 'XMP', packet }))]
  const [iimBlock = null, ...otherIim] = [...(raw.iim ? [raw.iim] : []), ...of(RESOURCE.iim)]
  // A TIFF file may hold the same block in its tag and in its resources.
  if (otherIim.some((other) => iimBlock && !other.equals(iimBlock)))
    unreadable.push({ where: 'IPTC-IIM', why: 'too-many' })
  const iim = iimBlock && readIim(iimBlock)
  if (iim?.damaged) unreadable.push({ where: 'IPTC-IIM', why: 'damaged' })

  return {
    ...raw,
    exif: readEach(structures, MAX_BLOCKS, unreadable, ({ tiff, isFile }) => {
      const exif = readExif(tiff, !isFile)
      if (!exif) throw new Error('no TIFF structure')
      if (exif.damaged) unreadable.push({ where: 'EXIF', why: 'damaged' })
      return exif
    }),
    xmp: readEach(packets, MAX_PACKETS, unreadable, ({ packet }) => {
      const xmp = readXmp(packet)
      if (xmp.damaged) unreadable.push({ where: 'XMP', why: 'damaged' })
      return xmp
    }),
    iim,
    iimDigest: digestOf(of(RESOURCE.iimDigest)[0]),
    previews: [
      ...raw.previews,
      ...thumbnails(of(RESOURCE.thumbnail), of(RESOURCE.oldThumbnail)),
      ...resources.flatMap(({ id, data }) => hiddenPicture(`Photoshop resource ${id}`, data)),
    ],
    unreadable: once(unreadable),
  }
}

/** With the blocks that stand within Exif's main directory, as they do in a TIFF file: readers find them there too. */
function withThoseInExif(raw: RawBlocks): RawBlocks {
  const directories = raw.exif.flatMap(({ tiff, isFile }) => (isFile ? [] : (readDirectory(tiff) ?? [])))
  const within = directories.slice(0, MAX_BLOCKS).map(directoryBlocks)
  const resources = [raw.resources, ...within.map((one) => one.resources)].filter((one) => one !== null)
  const [iim = null, ...otherIim] = [raw.iim, ...within.map((one) => one.iim)].filter((one) => one !== null)
  return {
    ...raw,
    xmp: [...raw.xmp, ...within.flatMap(({ xmp }) => xmp)],
    resources: resources.length > 0 ? Buffer.concat(resources) : null,
    iim,
    unreadable: otherIim.some((other) => !iim?.equals(other))
      ? [...raw.unreadable, { where: 'IPTC-IIM', why: 'too-many' }]
      : raw.unreadable,
  }
}

function readEach<Raw extends { readonly where: string; readonly packet?: Buffer }, Read>(
  blocks: readonly Raw[],
  most: number,
  unreadable: Unreadable[],
  read: (block: Raw) => Read,
): Read[] {
  if (blocks.length > most) unreadable.push({ where: blocks[0]?.where ?? '', why: 'too-many' })
  return blocks.slice(0, most).flatMap((block) => {
    if ((block.packet?.length ?? 0) > MAX_PACKET) {
      unreadable.push({ where: block.where, why: 'too-large' })
      return []
    }
    try {
      return [read(block)]
    } catch {
      unreadable.push({ where: block.where, why: 'damaged' })
      return []
    }
  })
}

/** Nothing but zeros stands for no digest. */
function digestOf(data: Buffer | undefined): string | null {
  return data?.some((byte) => byte !== 0) ? data.toString('hex') : null
}

function thumbnails(jpegs: readonly Buffer[], old: readonly Buffer[]): StoredPreview[] {
  return [
    ...jpegs.map((data) => ({ where: 'Photoshop thumbnail', picture: data.subarray(THUMBNAIL_HEAD) })),
    ...old.map(() => ({ where: 'Photoshop 4 thumbnail', picture: null })),
  ].slice(0, MAX_BLOCKS)
}

function once(unreadable: readonly Unreadable[]): Unreadable[] {
  return [...new Map(unreadable.map((one) => [`${one.where}: ${one.why}`, one])).values()]
}
