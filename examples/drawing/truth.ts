import { type Linear, lightness, luminance } from './color.ts'
import type { Point } from './path.ts'

export interface FramePoint {
  readonly x: number
  readonly y: number
}

/**
 * What is known about a drawn portrait, because it was drawn so. Places are fractions of the frame's width (x) and
 * height (y) from the top left; left and right are as seen in the frame.
 */
export interface Truth {
  readonly crownY: number
  /** Iris centers. */
  readonly leftEye: FramePoint
  readonly rightEye: FramePoint
  readonly chin: FramePoint
  /** Mid-eyes, the axis the face is centered by. */
  readonly headCenterX: number
  /** Ear to ear without the ears, as a fraction of the frame width. */
  readonly headWidth: number
  readonly eyeDistancePx: number
  readonly tiltDeg: number
  /** Median CIE L* (D50) of the backdrop that shows, without noise. */
  readonly backdropL: number
  /** P95 - P5 of the L* of the backdrop that shows, without noise. */
  readonly backdropUnevennessL: number
  readonly keySide: 'left' | 'right'
  readonly keyRatioStops: number
  readonly faces: number
}

/**
 * Topmost row in the columns of the head where the sitter covers an unbroken run of at least 5 % of the face width;
 * null when there is none. `coverage` is the sitter's alpha, `channels` bytes a pixel with alpha last.
 */
export function crownRow(
  coverage: Uint8Array,
  channels: number,
  widthPx: number,
  heightPx: number,
  columns: Point,
  faceWidthPx: number,
): number | null {
  const needed = 0.05 * faceWidthPx
  const from = Math.max(0, Math.round(columns[0]))
  const to = Math.min(widthPx, Math.round(columns[1]))
  for (let y = 0; y < heightPx; y++) {
    let run = 0
    for (let x = from; x < to; x++) {
      run = (coverage[(y * widthPx + x) * channels + channels - 1] ?? 0) >= 128 ? run + 1 : 0
      if (run >= needed) return y
    }
  }
  return null
}

/** Counts backdrop pixels by L*, a hundredth apart, and reads percentiles off the counts. */
export class LightnessCount {
  readonly #counts = new Uint32Array(10_001)
  #total = 0

  #last: Linear | undefined
  #lastBin = 0

  add(color: Linear): void {
    this.#total++
    if (color === this.#last) {
      this.#counts[this.#lastBin] = (this.#counts[this.#lastBin] ?? 0) + 1
      return
    }
    const clipped = Math.min(1, Math.max(0, luminance(color)))
    const bin = Math.round(lightness(clipped) * 100)
    this.#counts[bin] = (this.#counts[bin] ?? 0) + 1
    this.#last = color
    this.#lastBin = bin
  }

  /** L* below which `share` (0 to 1) of the pixels lie; 0 when there are none. */
  percentile(share: number): number {
    let seen = 0
    for (let bin = 0; bin < this.#counts.length; bin++) {
      seen += this.#counts[bin] ?? 0
      if (seen > 0 && seen >= share * this.#total) return bin / 100
    }
    return 0
  }
}
