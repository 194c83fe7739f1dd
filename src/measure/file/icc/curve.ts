import type { Transfer } from '../../../color/transfer.ts'

/** An s15Fixed16 number. @source ICC.1:2022, 4.6. */
export const fixed = (data: Buffer, at: number) => data.readInt32BE(at) / 65536

/**
 * Tone curve of a TRC tag: `curv` (ICC.1:2022, 10.6: identity, one gamma, or a table read with linear
 * interpolation) or `para` (10.18, function types 0 to 4). Null for any other type.
 * @throws RangeError when the tag is shorter than it says
 */
export function readCurve(tag: Buffer): Transfer | null {
  const type = tag.toString('latin1', 0, 4)
  if (type === 'curv') return sampledCurve(tag)
  if (type === 'para') return parametricCurve(tag)
  return null
}

/** A `curv` tag. @source ICC.1:2022, 10.6. */
function sampledCurve(tag: Buffer): Transfer {
  const count = tag.readUInt32BE(8)
  if (count === 0) return (x) => x
  if (count === 1) {
    const gamma = tag.readUInt16BE(12) / 256
    return (x) => x ** gamma
  }
  if (12 + 2 * count > tag.length) throw new RangeError('curve runs past the end of its tag')
  const sample = (place: number) => tag.readUInt16BE(12 + 2 * place) / 65535
  return (x) => {
    const place = x * (count - 1)
    const low = Math.min(Math.floor(place), count - 2)
    return sample(low) + (place - low) * (sample(low + 1) - sample(low))
  }
}

/** How many parameters function types 0..4 have. @source ICC.1:2022, Table 68. */
const PARAMETERS = [1, 3, 4, 5, 7]

/** A `para` tag. @source ICC.1:2022, 10.18. */
function parametricCurve(tag: Buffer): Transfer | null {
  const type = tag.readUInt16BE(8)
  const count = PARAMETERS[type]
  if (count === undefined) return null
  const parameters = Array.from({ length: count }, (_, n) => fixed(tag, 12 + 4 * n))
  const [g = 1, a = 1, b = 0, c = 0, d = 0, e = 0, f = 0] = parameters
  const power = (x: number) => (a * x + b) ** g
  if (type === 0) return (x) => x ** g
  if (type === 1) return (x) => (x >= -b / a ? power(x) : 0)
  if (type === 2) return (x) => (x >= -b / a ? power(x) + c : c)
  if (type === 3) return (x) => (x >= d ? power(x) : c * x)
  return (x) => (x >= d ? power(x) + e : c * x + f)
}
