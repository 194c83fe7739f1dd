import { toLinear } from '../drawing/color.ts'

/** Adobe RGB (1998) colorants adapted to D50, as its ICC profiles carry them, and its gamma. */
const COLORANTS = {
  rXYZ: [0.60974, 0.31111, 0.01947],
  gXYZ: [0.20527, 0.62568, 0.06087],
  bXYZ: [0.14919, 0.06321, 0.74456],
} as const
const GAMMA = 563 / 256
const WHITE = [0.9642, 1, 0.82491] as const

/**
 * Linear sRGB to linear Adobe RGB (1998). Both share red's and blue's chromaticities, so that only red and green mix.
 */
const FROM_SRGB = [
  [0.71516, 0.28484, 0],
  [0, 1, 0],
  [0, 0.04117, 0.95883],
] as const

/** sRGB pixels, three bytes each, as codes of Adobe RGB (1998). */
export function asAdobeRgb(pixels: Buffer): Buffer {
  const converted = Buffer.alloc(pixels.length)
  const linear = Float64Array.from({ length: 256 }, (_, code) => toLinear(code))
  for (let at = 0; at < pixels.length; at += 3) {
    const [red, green, blue] = [0, 1, 2].map((channel) => linear[pixels[at + channel] ?? 0] ?? 0)
    FROM_SRGB.forEach(([fromRed, fromGreen, fromBlue], channel) => {
      const light = fromRed * (red ?? 0) + fromGreen * (green ?? 0) + fromBlue * (blue ?? 0)
      converted[at + channel] = Math.round(255 * Math.min(1, light) ** (1 / GAMMA))
    })
  }
  return converted
}

/** A minimal ICC version 2 display profile of Adobe RGB (1998). */
export function adobeRgbProfile(): Buffer {
  const curve = tagData('curv', 4 + 2)
  curve.writeUInt32BE(1, 8)
  curve.writeUInt16BE(563, 12)
  const tags: [string, Buffer][] = [
    ['desc', description('Adobe RGB (1998)')],
    ['cprt', text('No copyright, use freely')],
    ['wtpt', xyz(WHITE)],
    ...Object.entries(COLORANTS).map(([name, value]): [string, Buffer] => [name, xyz(value)]),
    ['rTRC', curve],
    ['gTRC', curve],
    ['bTRC', curve],
  ]
  const table = Buffer.alloc(4 + 12 * tags.length)
  table.writeUInt32BE(tags.length, 0)
  let offset = 128 + table.length
  const bodies: Buffer[] = []
  tags.forEach(([name, body], index) => {
    table.write(name, 4 + 12 * index, 'latin1')
    table.writeUInt32BE(offset, 8 + 12 * index)
    table.writeUInt32BE(body.length, 12 + 12 * index)
    const padded = Buffer.concat([body, Buffer.alloc((4 - (body.length % 4)) % 4)])
    bodies.push(padded)
    offset += padded.length
  })
  return Buffer.concat([header(offset), table, ...bodies])
}

function header(size: number): Buffer {
  const head = Buffer.alloc(128)
  head.writeUInt32BE(size, 0)
  head.writeUInt32BE(0x02400000, 8)
  head.write('mntrRGB XYZ ', 12, 'latin1')
  // A fixed date keeps the file the same at every redraw.
  ;[2000, 1, 1].forEach((part, index) => {
    head.writeUInt16BE(part, 24 + 2 * index)
  })
  head.write('acsp', 36, 'latin1')
  s15Fixed16(WHITE).copy(head, 68)
  return head
}

function tagData(type: string, length: number): Buffer {
  const data = Buffer.alloc(8 + length)
  data.write(type, 0, 'latin1')
  return data
}

function s15Fixed16(values: readonly number[]): Buffer {
  const data = Buffer.alloc(4 * values.length)
  values.forEach((value, index) => {
    data.writeInt32BE(Math.round(value * 65_536), 4 * index)
  })
  return data
}

function xyz(value: readonly number[]): Buffer {
  return Buffer.concat([tagData('XYZ ', 0), s15Fixed16(value)])
}

function text(words: string): Buffer {
  return Buffer.concat([tagData('text', 0), Buffer.from(`${words}\0`, 'latin1')])
}

/** textDescriptionType: ASCII, then empty Unicode and ScriptCode parts. */
function description(words: string): Buffer {
  const ascii = Buffer.from(`${words}\0`, 'latin1')
  const data = tagData('desc', 4 + ascii.length + 8 + 3 + 67)
  data.writeUInt32BE(ascii.length, 8)
  ascii.copy(data, 12)
  return data
}
