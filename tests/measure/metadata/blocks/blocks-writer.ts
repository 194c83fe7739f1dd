import { type Blocks, readBlocks } from '../../../../src/measure/metadata/blocks/blocks.ts'
import { NO_BLOCKS, type RawBlocks } from '../../../../src/measure/metadata/blocks/raw-blocks.ts'
import { type ExifRecipe, writeExif } from '../../file/exif/exif-writer.ts'
import { type Dataset, md5, resource, writeIim } from '../formats/iim-writer.ts'
import { packet } from '../formats/xmp-writer.ts'

export interface BlocksRecipe extends Partial<Omit<RawBlocks, 'exif' | 'xmp' | 'iim' | 'resources'>> {
  readonly exif?: ExifRecipe
  /** Property elements. */
  readonly xmp?: string
  readonly iim?: readonly Dataset[]
  /** Whether the file holds the digest of its IIM block, that of another one, or none. */
  readonly digest?: 'right' | 'other'
  readonly resources?: readonly Buffer[]
}

/** Blocks as the containers hand them over. */
export function blocks({ exif, xmp, iim, digest, resources = [], ...rest }: BlocksRecipe): Blocks {
  const block = iim && writeIim(iim)
  const sum =
    digest && block ? [resource(0x0425, digest === 'right' ? md5(block) : md5(Buffer.from('other')))] : []
  const all = [...(block ? [resource(0x0404, block)] : []), ...sum, ...resources]
  return readBlocks({
    ...NO_BLOCKS,
    ...rest,
    exif: exif ? [{ where: 'EXIF', tiff: writeExif(exif) }] : [],
    xmp: xmp === undefined ? [] : [{ where: 'XMP', packet: packet(xmp) }],
    resources: all.length > 0 ? Buffer.concat(all) : null,
  })
}
