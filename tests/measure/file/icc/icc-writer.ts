type Colorants = readonly (readonly [x: number, y: number, z: number])[]

/** What a small ICC profile is made of; sRGB's colorants and curve unless told otherwise. */
export interface Recipe {
  readonly version?: 2 | 4
  readonly name?: string
  readonly dataSpace?: string
  readonly connectionSpace?: string
  readonly colorants?: Colorants
  /** One curve for all three, or three. */
  readonly curves?: readonly Buffer[]
  readonly more?: Readonly<Record<string, Buffer>>
}

// Published colorants, relative to D50, as the profiles of these spaces hold them.
export const COLORANTS = {
  /** Of "sRGB IEC61966-2.1", 1998. */
  srgb: [
    [0.43607, 0.22249, 0.01392],
    [0.38515, 0.71687, 0.09708],
    [0.14307, 0.06061, 0.7141],
  ],
  adobe: [
    [0.60974, 0.31111, 0.01947],
    [0.20528, 0.62567, 0.06087],
    [0.14919, 0.06322, 0.74457],
  ],
  p3: [
    [0.51512, 0.2412, -0.00105],
    [0.29198, 0.69225, 0.04189],
    [0.1571, 0.06657, 0.78407],
  ],
  prophoto: [
    [0.79767, 0.28804, 0],
    [0.13519, 0.71187, 0],
    [0.03134, 0.00009, 0.8249],
  ],
} as const

const fixed = (value: number) => {
  const bytes = Buffer.alloc(4)
  bytes.writeInt32BE(Math.round(value * 65536))
  return bytes
}

const typed = (type: string, ...parts: readonly Buffer[]) =>
  Buffer.concat([Buffer.from(type, 'latin1'), Buffer.alloc(4), ...parts])

const u16 = (...values: readonly number[]) => {
  const bytes = Buffer.alloc(2 * values.length)
  for (const [n, value] of values.entries()) bytes.writeUInt16BE(value, 2 * n)
  return bytes
}

export const u32 = (...values: readonly number[]) => {
  const bytes = Buffer.alloc(4 * values.length)
  for (const [n, value] of values.entries()) bytes.writeUInt32BE(value, 4 * n)
  return bytes
}

/** `curv`: no value is the identity, one is a gamma in 1/256, more are a table 0..65535. */
export const curv = (...values: readonly number[]) => typed('curv', u32(values.length), u16(...values))

/** `para`: function type and parameters. */
export const para = (type: number, ...parameters: readonly number[]) =>
  typed('para', u16(type, 0), ...parameters.map(fixed))

/** sRGB's curve as `para` type 3 (IEC 61966-2-1 in the form of ICC.1). */
export const SRGB_CURVE = para(3, 2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045)

/** The curve of ITU-R BT.709 as `para` type 3. */
export const BT709_CURVE = para(3, 1 / 0.45, 1 / 1.099, 0.099 / 1.099, 1 / 4.5, 0.081)

export const gamma = (value: number) => curv(Math.round(256 * value))

/** textDescriptionType of version 2. */
export const desc = (text: string) =>
  typed('desc', u32(text.length + 1), Buffer.from(`${text}\0`, 'latin1'), Buffer.alloc(78))

/** multiLocalizedUnicodeType of version 4. */
export function mluc(texts: Readonly<Record<string, string>>): Buffer {
  const entries = Object.entries(texts)
  let offset = 16 + 12 * entries.length
  const records: Buffer[] = []
  const strings: Buffer[] = []
  for (const [locale, text] of entries) {
    const encoded = Buffer.from(text, 'utf16le').swap16()
    records.push(Buffer.from(locale, 'latin1'), u32(encoded.length, offset))
    strings.push(encoded)
    offset += encoded.length
  }
  return typed('mluc', u32(entries.length, 12), ...records, ...strings)
}

export function writeProfile(recipe: Recipe = {}): Buffer {
  const { version = 2, name = 'test', colorants = COLORANTS.srgb, curves = [SRGB_CURVE] } = recipe
  const curve = (n: number) => (curves[n] ?? curves[0]) as Buffer
  const colorant = (n: number) => typed('XYZ ', ...(colorants[n] ?? []).map(fixed))
  const tags: [string, Buffer][] = Object.entries({
    desc: version === 2 ? desc(name) : mluc({ enUS: name }),
    rXYZ: colorant(0),
    gXYZ: colorant(1),
    bXYZ: colorant(2),
    rTRC: curve(0),
    gTRC: curve(1),
    bTRC: curve(2),
    wtpt: typed('XYZ ', fixed(0.9642), fixed(1), fixed(0.8249)),
    ...recipe.more,
  })
  return assemble(header(recipe, version), tags)
}

function header({ dataSpace = 'RGB ', connectionSpace = 'XYZ ' }: Recipe, version: number): Buffer {
  const bytes = Buffer.alloc(128)
  bytes.writeUInt8(version, 8)
  bytes.write(`mntr${dataSpace}${connectionSpace}`, 12, 'latin1')
  bytes.write('acsp', 36, 'latin1')
  Buffer.concat([fixed(0.9642), fixed(1), fixed(0.8249)]).copy(bytes, 68)
  return bytes
}

function assemble(head: Buffer, tags: readonly [string, Buffer][]): Buffer {
  const table = [u32(tags.length)]
  const data: Buffer[] = []
  let offset = 128 + 4 + 12 * tags.length
  for (const [signature, tag] of tags) {
    const padded = Buffer.concat([tag, Buffer.alloc((4 - (tag.length % 4)) % 4)])
    table.push(Buffer.from(signature, 'latin1'), u32(offset, tag.length))
    data.push(padded)
    offset += padded.length
  }
  const profile = Buffer.concat([head, ...table, ...data])
  profile.writeUInt32BE(profile.length, 0)
  return profile
}
