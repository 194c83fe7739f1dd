import type { Unreadable } from '../../schema/metadata-facts.ts'
import type { RawBlocks } from './raw-blocks.ts'

// By what a packet (ISO 16684-1, 7.4) and a TIFF structure with its first directory behind the header begin.
const XMP = ['<x:xmpmeta', '<rdf:RDF']
const EXIF = ['II\x2a\0\x08\0\0\0', 'MM\0\x2a\0\0\0\x08']

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
function isIn(whole: Buffer, beginnings: readonly string[], parts: readonly Buffer[]): boolean {
  return beginnings.some((beginning) => {
    const within = parts.reduce((sum, part) => sum + timesIn(part, beginning), 0)
    return timesIn(whole, beginning, within + 1) > within
  })
}

function timesIn(bytes: Buffer, text: string, most = Infinity): number {
  let times = 0
  for (let at = bytes.indexOf(text, 0, 'latin1'); at >= 0 && times < most; times++)
    at = bytes.indexOf(text, at + 1, 'latin1')
  return times
}
