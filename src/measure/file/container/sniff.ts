import type { Decodable } from '../../schema/formats.ts'
import { brandsOf } from '../bytes/boxes.ts'
import { isCameraRaw } from '../bytes/tiff.ts'
import { isAnimatedAvif, isAnimatedPng, isAnimatedWebp } from './animated.ts'

/** What a file's first bytes say it is. `null`: nothing that holds a picture. */
export type Sniffed = Decodable | (typeof NOT_DECODABLE)[number] | 'lfs-pointer' | null

// Of a picture that moves only the first frame would be measured, and a page shows the others too.
const NOT_DECODABLE = [
  'heic',
  'gif',
  'bmp',
  'svg',
  'pdf',
  'psd',
  'jxl',
  'jp2',
  'raw',
  'animated-webp',
  'animated-png',
  'animated-avif',
] as const

// Leading bytes as latin1 text. Sources: ITU-T T.81 B.1.1.3; PNG third edition 5.2; TIFF 6.0 section 2 (BigTIFF: its
// 2B 00); GIF89a; ISO 32000-1 7.5.2; ISO/IEC 18181-2 (JPEG XL); ISO/IEC 15444-1 Annex I (JPEG 2000); the others from
// memory.
const SIGNATURES: readonly (readonly [string, Sniffed])[] = [
  ['\xff\xd8\xff', 'jpeg'],
  ['\x89PNG\r\n\x1a\n', 'png'],
  ['II\x2a\0', 'tiff'],
  ['MM\0\x2a', 'tiff'],
  ['II\x2b\0', 'tiff'],
  ['MM\0\x2b', 'tiff'],
  ['GIF8', 'gif'],
  ['BM', 'bmp'],
  ['%PDF-', 'pdf'],
  ['8BPS', 'psd'],
  ['\xff\x0a', 'jxl'],
  ['\0\0\0\x0cJXL \r\n\x87\n', 'jxl'],
  ['\0\0\0\x0cjP  \r\n\x87\n', 'jp2'],
  ['FUJIFILMCCD-RAW', 'raw'],
  ['IIRO', 'raw'],
  ['IIU\0', 'raw'],
  ['version https://git-lfs.github.com/spec/v1', 'lfs-pointer'],
]

// Brands of ISO/IEC 23008-12 Annex B (HEVC pictures) and of the AV1 Image File Format; `crx ` from memory.
const AVIF_BRANDS = ['avif', 'avis']
const HEIC_BRANDS = ['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'mif1', 'msf1']

/** Tells a format from its content; a file's name plays no part. */
export function sniff(content: Buffer): Sniffed {
  const head = content.toString('latin1', 0, 64)
  const [, signed] = SIGNATURES.find(([signature]) => head.startsWith(signature)) ?? []
  if (signed === 'tiff') return isCameraRaw(content) ? 'raw' : 'tiff'
  if (signed === 'png') return isAnimatedPng(content) ? 'animated-png' : 'png'
  if (signed) return signed
  if (head.startsWith('RIFF') && head.startsWith('WEBP', 8))
    return isAnimatedWebp(content) ? 'animated-webp' : 'webp'
  const brands = brandsOf(content)
  if (brands.some((brand) => AVIF_BRANDS.includes(brand)))
    return isAnimatedAvif(content) ? 'animated-avif' : 'avif'
  if (brands.some((brand) => HEIC_BRANDS.includes(brand))) return 'heic'
  if (brands[0] === 'crx ') return 'raw'
  return isSvg(content) ? 'svg' : null
}

/** XML or HTML-like text whose first few kilobytes open an `svg` element; a byte order mark or UTF-16 doesn't hide it. */
function isSvg(content: Buffer): boolean {
  const text = content
    .toString('latin1', 0, 4096)
    .replaceAll('\0', '')
    .replace(/^[\xef\xbb\xbf\xfe\xff\s]+/, '')
  return text.startsWith('<') && /<(?:\w+:)?svg[\s>]/i.test(text)
}
