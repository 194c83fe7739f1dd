// The parts of culori, which ships no types, that are used as a second implementation.
declare module 'culori' {
  interface Rgb {
    mode: 'rgb'
    r: number
    g: number
    b: number
  }
  interface Lab {
    mode: 'lab'
    l: number
    a: number
    b: number
  }
  interface Lab65 extends Omit<Lab, 'mode'> {
    mode: 'lab65'
  }
  /** To CIE L*a*b* relative to D50. */
  export function lab(color: Rgb): Lab
  /** Relative luminance Y of an sRGB color, 0..1. */
  export function wcagLuminance(color: Rgb): number
  /** CIEDE2000 of colors that are given in CIE L*a*b* under D65, which it does not convert then. */
  export function differenceCiede2000(): (first: Lab65, second: Lab65) => number
}
