import type { Unreadable } from '../../schema/metadata-facts.ts'
import type { RawBlocks } from './raw-blocks.ts'

interface Beginning {
  readonly mark: string
  /** Places behind the mark's start that hold zeros. */
  readonly zeros: readonly number[]
}

/** By what a packet begins. @source ISO 16684-1, 7.4. */
const XMP: readonly Beginning[] = ['<x:xmpmeta', '<rdf:RDF'].map((mark) => ({ mark, zeros: [] }))
/** By what a TIFF structure begins, in either byte order. @source TIFF 6.0, section 2; its first directory taken to lie within 64 KiB, as in a JPEG's segment. */
const EXIF: readonly Beginning[] = [
  { mark: 'II\x2a\0', zeros: [6, 7] },
  { mark: 'MM\0\x2a', zeros: [4, 5] },
]

/**
 * Metadata that stand in the file's bytes but in none of the blocks found there: a container that is damaged, or made to
 * be, hides from one reader what another still shows.
 */
export function strayBlocks(content: Buffer, { exif, xmp, texts, resources }: RawBlocks): Unreadable[] {
  const structures = exif.filter(({ isFile }) => !isFile).map(({ tiff }) => tiff)
  const isTiff = structures.length < exif.length
  const others = [...texts.values()].map((text) => Buffer.from(text))
  const found = [
    ...structures,
    ...xmp.map(({ packet }) => packet),
    ...(resources ? [resources] : []),
    ...others,
  ]
  const strays: Unreadable[] = []
  if (!isTiff && isIn(content, EXIF, found)) strays.push({ where: 'EXIF', why: 'damaged' })
  if (isIn(content, XMP, found)) strays.push({ where: 'XMP', why: 'damaged' })
  return strays
}

/** Whether one of the beginnings stands more often in the whole than in the parts. */
function isIn(whole: Buffer, beginnings: readonly Beginning[], parts: readonly Buffer[]): boolean {
  return beginnings.some((beginning) => {
    const within = parts.reduce((sum, part) => sum + timesIn(part, beginning), 0)
    return timesIn(whole, beginning, within + 1) > within
  })
}

function timesIn(bytes: Buffer, { mark, zeros }: Beginning, most = Infinity): number {
  let times = 0
  for (let at = bytes.indexOf(mark, 0, 'latin1'); at >= 0 && times < most; ) {
    const start = at
    if (zeros.every((place) => bytes[start + place] === 0)) times++
    at = bytes.indexOf(mark, at + 1, 'latin1')
  }
  return times
}
