import { beginsWith } from '../bytes/begins-with.ts'
import type { PngChunk } from '../bytes/png.ts'
import type { JpegSegments } from '../bytes/segments.ts'
import { readDirectory, TAG, type TiffDirectory } from '../bytes/tiff.ts'
import { withoutExifCode } from '../exif/code.ts'

/** Centimeters in an inch. @source international yard and pound agreement of 1959, exact. */
const CM_PER_INCH = 2.54
/** Meters in an inch. @source as above. */
const METERS_PER_INCH = 0.0254

// All functions give pixels per inch across, rounded to 0.01 (PNG holds whole pixels per metre, so 300 ppi as
// 299.9994), or null when no absolute resolution is stated.
function rounded(ppi: number): number | null {
  return ppi > 0 && Number.isFinite(ppi) ? Math.round(ppi * 100) / 100 : null
}

/** Of the JFIF segment of a JPEG. @source JFIF 1.02 (ITU-T T.871, 10.1): units 1 per inch, 2 per cm, 0 none. */
export function jfifPpi({ apps }: JpegSegments): number | null {
  const jfif = apps.find(
    ({ n, payload, inHeader }) => inHeader && n === 0 && beginsWith(payload, 'JFIF\0'),
  )?.payload
  if (!jfif || jfif.length < 12) return null
  const density = jfif.readUInt16BE(8)
  const units = jfif.readUInt8(7)
  if (units === 1) return rounded(density)
  return units === 2 ? rounded(density * CM_PER_INCH) : null
}

/** Of the pHYs chunk of a PNG. @source PNG, third edition, 11.3.4.3: unit 1 per meter, 0 none. */
export function pngPpi(chunks: readonly PngChunk[]): number | null {
  const physical = chunks.find(({ type }) => type === 'pHYs')?.data
  if (!physical || physical.length < 9 || physical.readUInt8(8) !== 1) return null
  return rounded(physical.readUInt32BE(0) * METERS_PER_INCH)
}

/** Of a directory. @source TIFF 6.0, section 8, and Exif (CIPA DC-008), 4.6.4: ResolutionUnit 2 inch (also when absent), 3 cm, 1 none. */
export function tiffPpi(directory: TiffDirectory): number | null {
  const [resolution] = directory.numbers(TAG.xResolution) ?? []
  const [unit = 2] = directory.numbers(TAG.resolutionUnit) ?? []
  if (resolution === undefined) return null
  if (unit === 2) return rounded(resolution)
  return unit === 3 ? rounded(resolution * CM_PER_INCH) : null
}

/** Of an Exif block, with or without the "Exif" code that goes before it in JPEG. */
export function exifPpi(exif: Buffer): number | null {
  const directory = readDirectory(withoutExifCode(exif))
  return directory && tiffPpi(directory)
}
