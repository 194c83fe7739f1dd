/** An sRGB color, each channel as a code from 0 to 255. */
export type Rgb = readonly [red: number, green: number, blue: number]

/** Linear light per sRGB channel, 0 to 1. */
export type Linear = readonly [red: number, green: number, blue: number]

/** CIELAB under D50: L from 0 to 100. */
export interface Lab {
  readonly L: number
  readonly a: number
  readonly b: number
}

/** Reads "#rrggbb". */
export function fromHex(hex: string): Rgb {
  const value = Number.parseInt(hex.slice(1), 16)
  return [value >> 16, (value >> 8) & 255, value & 255]
}

export function toCss(color: Rgb): string {
  return `rgb(${color.map((code) => Math.round(Math.min(255, Math.max(0, code)))).join(',')})`
}

/** `share` 0 gives `from`, 1 gives `to`. */
export function mix(from: Rgb, to: Rgb, share: number): Rgb {
  return [
    from[0] + (to[0] - from[0]) * share,
    from[1] + (to[1] - from[1]) * share,
    from[2] + (to[2] - from[2]) * share,
  ]
}

export function filtered(color: Rgb, filter: readonly [number, number, number]): Rgb {
  return [color[0] * filter[0], color[1] * filter[1], color[2] * filter[2]]
}

/** sRGB code (0 to 255) to linear light (0 to 1), IEC 61966-2-1. */
export function toLinear(code: number): number {
  const value = code / 255
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4
}

/** Linear light (clipped to 0 to 1) to an unrounded sRGB code. */
export function fromLinear(light: number): number {
  const value = Math.min(1, Math.max(0, light))
  return 255 * (value <= 0.0031308 ? value * 12.92 : 1.055 * value ** (1 / 2.4) - 0.055)
}

/** CIE L* (0 to 100) of a relative luminance (0 to 1). */
export function lightness(luminance: number): number {
  return luminance > 216 / 24389 ? 116 * Math.cbrt(luminance) - 16 : (luminance * 24389) / 27
}

/** Luminance Y under D50 of linear sRGB (Bradford-adapted second row of the sRGB matrix). */
export function luminance(color: Linear): number {
  return 0.2225045 * color[0] + 0.7168786 * color[1] + 0.0606169 * color[2]
}

export function labToLinear(color: Lab): Linear {
  const fy = (color.L + 16) / 116
  const cube = (f: number): number => (f > 6 / 29 ? f ** 3 : (f - 4 / 29) * 3 * (6 / 29) ** 2)
  const x = 0.9642957 * cube(fy + color.a / 500)
  const y = cube(fy)
  const z = 0.8251046 * cube(fy - color.b / 200)
  return [
    3.1338561 * x - 1.6168667 * y - 0.4906146 * z,
    -0.9787684 * x + 1.9161415 * y + 0.033454 * z,
    0.0719453 * x - 0.2289914 * y + 1.4052427 * z,
  ]
}

export function rgbToLinear(color: Rgb): Linear {
  return [toLinear(color[0]), toLinear(color[1]), toLinear(color[2])]
}
