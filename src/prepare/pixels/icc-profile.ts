import { D50, toXyzD50 } from '../../color/colorants.ts'
import type { Triple } from '../../numbers/matrix3.ts'
import type { ColorSpace } from '../../rules/contract/export-settings.ts'
import { targetSpace } from './target-space.ts'

/** Parameters of `para` curves, function types 3 and 0. @source ICC.1:2022, 10.18; the curves as in color/transfer.ts. */
const CURVES: Readonly<Record<ColorSpace, readonly [type: 0 | 3, ...parameters: number[]]>> = {
  sRGB: [3, 2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045],
  'Display P3': [3, 2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045],
  'Adobe RGB (1998)': [0, 563 / 256],
  'ProPhoto RGB': [3, 1.8, 1, 0, 1 / 16, 16 / 512],
  gray: [3, 2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045],
}

const HEADER = 128
const made = new Map<ColorSpace, Buffer>()

/**
 * A display profile of a space by its definition: colorants adapted to D50 and a parametric curve.
 * @source ICC.1:2022 (profile version 4.4): header 7.2, tags of display profiles 8.3 and 8.4.
 */
export function iccProfile(name: ColorSpace): Buffer {
  const profile = made.get(name) ?? build(name)
  made.set(name, profile)
  return profile
}

function build(name: ColorSpace): Buffer {
  const { primaries } = targetSpace(name)
  const curve = curveTag(...CURVES[name])
  const tags: [string, Buffer][] = [
    ['desc', textTag(name === 'gray' ? 'Gray with the tone curve of sRGB' : name)],
    ['cprt', textTag('No copyright, use freely')],
    ['wtpt', xyzTag(D50)],
  ]
  if (primaries) {
    const rows = toXyzD50(primaries)
    for (const [column, signature] of ['rXYZ', 'gXYZ', 'bXYZ'].entries())
      tags.push([signature, xyzTag([rows[0][column] ?? 0, rows[1][column] ?? 0, rows[2][column] ?? 0])])
    for (const signature of ['rTRC', 'gTRC', 'bTRC']) tags.push([signature, curve])
  } else tags.push(['kTRC', curve])
  return assembled(primaries ? 'RGB ' : 'GRAY', tags)
}

function assembled(dataSpace: string, tags: readonly (readonly [string, Buffer])[]): Buffer {
  const table = Buffer.alloc(4 + 12 * tags.length)
  table.writeUInt32BE(tags.length, 0)
  const parts: Buffer[] = []
  const offsets = new Map<Buffer, number>()
  let end = HEADER + table.length
  for (const [index, [signature, data]] of tags.entries()) {
    // Equal curves are stored once, as the standard allows (7.3.1).
    const offset = offsets.get(data) ?? end
    if (!offsets.has(data)) {
      offsets.set(data, offset)
      parts.push(data)
      end += data.length
    }
    table.write(signature, 4 + 12 * index, 'latin1')
    table.writeUInt32BE(offset, 8 + 12 * index)
    table.writeUInt32BE(data.length, 12 + 12 * index)
  }
  const header = Buffer.alloc(HEADER)
  header.writeUInt32BE(end, 0)
  header.writeUInt32BE(0x04400000, 8)
  header.write(`mntr${dataSpace}XYZ `, 12, 'latin1')
  // The date and time of creation; a fixed one, so that the same order gives the same bytes.
  for (const [index, part] of [2026, 1, 1].entries()) header.writeUInt16BE(part, 24 + 2 * index)
  header.write('acsp', 36, 'latin1')
  xyzTag(D50).copy(header, 68, 8)
  return Buffer.concat([header, table, ...parts])
}

function xyzTag(xyz: Triple): Buffer {
  const tag = Buffer.alloc(20)
  tag.write('XYZ ', 0, 'latin1')
  for (const [index, value] of xyz.entries()) tag.writeInt32BE(Math.round(value * 65536), 8 + 4 * index)
  return tag
}

function curveTag(type: 0 | 3, ...parameters: number[]): Buffer {
  const tag = Buffer.alloc(12 + 4 * parameters.length)
  tag.write('para', 0, 'latin1')
  tag.writeUInt16BE(type, 8)
  for (const [index, value] of parameters.entries())
    tag.writeInt32BE(Math.round(value * 65536), 12 + 4 * index)
  return tag
}

/** A `mluc` tag with one record, English. @source ICC.1:2022, 10.15. */
function textTag(text: string): Buffer {
  const encoded = Buffer.from(text, 'utf16le').swap16()
  const tag = Buffer.alloc(28 + encoded.length + ((4 - (encoded.length % 4)) % 4))
  tag.write('mluc', 0, 'latin1')
  tag.writeUInt32BE(1, 8)
  tag.writeUInt32BE(12, 12)
  tag.write('enUS', 16, 'latin1')
  tag.writeUInt32BE(encoded.length, 20)
  tag.writeUInt32BE(28, 24)
  encoded.copy(tag, 28)
  return tag
}
