import { type PngChunk, readPng } from '../../file/bytes/png.ts'
import type { Unreadable } from '../../schema/metadata-facts.ts'
import { MAX_PACKET } from './extended-xmp.ts'
import { readPngText } from './png-text.ts'
import { NO_BLOCKS, type RawBlocks, trailer } from './raw-blocks.ts'

const XMP_KEYWORD = 'XML:com.adobe.xmp'
/** Hexadecimal blocks that programs wrote into text before PNG had a chunk for them; common practice, no source. */
const RAW_PROFILE = /^Raw profile type (exif|app1|iptc|8bim|xmp)$/i
// PNG, third edition, chapter 11, and Extensions to the PNG Specification 1.5 (oFFs to dSIG); iDOT, where a program may
// begin to decode, from memory. They hold what shows the picture, and no room for anything else.
const KNOWN = new Set(
  'IHDR PLTE tRNS cHRM gAMA iCCP sBIT sRGB cICP mDCV cLLI bKGD hIST pHYs sPLT tIME acTL fcTL fdAT oFFs pCAL sCAL gIFg gIFx sTER dSIG iDOT'.split(
    ' ',
  ),
)
const EXIF_CODE = /^Exif\0\0/

/** Most texts read. @choice no source: programs that write each property as a text write some hundreds. */
const MAX_TEXTS = 500

/** Most bytes of texts read. @choice no source: all that is read of a packed text is unpacked first, and none is larger than a packet of XMP. */
const MAX_TEXT_BYTES = 4 * MAX_PACKET

type Mutable<T> = { -readonly [K in keyof T]: T[K] }

/** Chunks may stand before and after the picture's data. PNG, third edition, 11.3.3 (text) and 11.3.5.1 (eXIf). */
export function pngBlocks(png: Buffer): RawBlocks {
  const { chunks, late, trailing } = readPng(png)
  const found: Found = {
    ...{ exif: [], xmp: [], resources: [], iim: null, texts: new Map(), unreadable: [] },
    textCount: 0,
    textBytes: 0,
  }
  let credentials = 0
  let others = 0
  for (const chunk of [...chunks, ...late]) {
    if (chunk.type === 'eXIf') found.exif.push({ where: 'EXIF', tiff: chunk.data })
    else if (chunk.type === 'caBX') credentials += chunk.data.length
    else if (['tEXt', 'zTXt', 'iTXt'].includes(chunk.type)) addText(found, chunk)
    else if (!KNOWN.has(chunk.type)) others += chunk.data.length
  }
  const { exif, xmp, iim, texts, unreadable } = found
  return {
    ...NO_BLOCKS,
    ...{ exif, xmp, iim, texts, unreadable },
    resources: found.resources.length > 0 ? Buffer.concat(found.resources) : null,
    opaque: [
      // C2PA Technical Specification, "Embedding manifests into PNG".
      ...(credentials > 0 ? [{ where: 'PNG chunk caBX', bytes: credentials }] : []),
      ...(others > 0 ? [{ where: 'PNG chunks of other kinds', bytes: others }] : []),
      ...trailer(png.subarray(png.length - trailing)),
    ],
  }
}

interface Found extends Mutable<Pick<RawBlocks, 'iim'>> {
  readonly exif: { where: string; tiff: Buffer }[]
  readonly xmp: { where: string; packet: Buffer }[]
  readonly resources: Buffer[]
  readonly texts: Map<string, string>
  readonly unreadable: Unreadable[]
  textCount: number
  /** Characters of all texts, unpacked. */
  textBytes: number
}

const TOO_MANY = { why: 'too-many' } as const

function addText(found: Found, chunk: PngChunk): void {
  const left = MAX_TEXT_BYTES - found.textBytes
  const isTooMany = ++found.textCount > MAX_TEXTS || left <= 0
  const read = isTooMany ? TOO_MANY : readPngText(chunk, Math.min(MAX_PACKET, left))
  if ('why' in read) {
    found.unreadable.push({ where: 'PNG text', why: read.why })
    return
  }
  const { keyword, text } = read
  found.textBytes += text.length
  const profile = RAW_PROFILE.exec(keyword)?.[1]?.toLowerCase()
  if (keyword === XMP_KEYWORD) found.xmp.push({ where: 'XMP', packet: Buffer.from(text, 'utf8') })
  else if (profile !== undefined) addProfile(found, profile, text)
  else if (!found.texts.has(keyword)) found.texts.set(keyword, text)
}

/** A line with the profile's name, one with its length, then its bytes in hexadecimal. */
function addProfile(found: Found, profile: string, text: string): void {
  const [, , ...lines] = text.replace(/^\n/, '').split('\n')
  const data = Buffer.from(lines.join(''), 'hex')
  const code = data.toString('latin1', 0, 6)
  if (EXIF_CODE.test(code)) found.exif.push({ where: 'EXIF', tiff: data.subarray(6) })
  else if (profile === 'exif') found.exif.push({ where: 'EXIF', tiff: data })
  else if (profile === 'xmp') found.xmp.push({ where: 'XMP', packet: data })
  else if (profile === 'app1') found.xmp.push({ where: 'XMP', packet: data.subarray(data.indexOf(0) + 1) })
  else if (code.startsWith('8BIM')) found.resources.push(data)
  else found.iim = data
}
