/** Lightness of a picture, L* 0..100, row by row. */
export interface Plane {
  readonly data: Float32Array
  readonly width: number
  readonly height: number
}

/** A smaller copy: each pixel is the mean of the area that it covers. Neither edge may grow. */
export function shrink({ data, width, height }: Plane, toWidth: number, toHeight: number): Plane {
  const across = new Float32Array(toWidth * height)
  average(data, across, {
    lines: height,
    length: width,
    to: toWidth,
    step: 1,
    line: width,
    toStep: 1,
    toLine: toWidth,
  })
  const out = new Float32Array(toWidth * toHeight)
  average(across, out, {
    lines: toWidth,
    length: height,
    to: toHeight,
    step: toWidth,
    line: 1,
    toStep: toWidth,
    toLine: 1,
  })
  return { data: out, width: toWidth, height: toHeight }
}

interface Walk {
  readonly lines: number
  /** Pixels of a line, before and after. */
  readonly length: number
  readonly to: number
  /** From a pixel to the next one of its line, and from a line to the next one. */
  readonly step: number
  readonly line: number
  readonly toStep: number
  readonly toLine: number
}

function average(
  from: Float32Array,
  into: Float32Array,
  { lines, length, to, step, line, toStep, toLine }: Walk,
): void {
  const ratio = length / to
  for (let n = 0; n < to; n++) {
    const start = n * ratio
    const end = Math.min(length, start + ratio)
    for (let l = 0; l < lines; l++) {
      let sum = 0
      for (let at = Math.floor(start); at < end; at++) {
        const share = Math.min(at + 1, end) - Math.max(at, start)
        sum += share * (from[l * line + at * step] as number)
      }
      into[l * toLine + n * toStep] = sum / ratio
    }
  }
}
