import type { Patch } from './patch.ts'

/** A place where luma changes fast, with the unit vector across it (towards the lighter side). */
export interface Edge {
  readonly x: number
  readonly y: number
  readonly acrossX: number
  readonly acrossY: number
  /** Slope of the smoothed luma, codes per pixel. */
  readonly slope: number
}

// A slope below this is grain or soft shading, no edge to read a spread from.
const LEAST_SLOPE = 1

/**
 * The steepest edges of a patch, at least `apart` pixels from each other, steepest first.
 * @param sigma smoothing before the slope is taken, in pixels
 */
export function steepestEdges(patch: Patch, sigma: number, apart: number, most: number): Edge[] {
  const { width, height } = patch
  const luma = smoothed(patch, sigma)
  const slopeAt = (i: number) => {
    const x = ((luma[i + 1] as number) - (luma[i - 1] as number)) / 2
    const y = ((luma[i + width] as number) - (luma[i - width] as number)) / 2
    return { x, y, size: Math.sqrt(x * x + y * y) }
  }
  const found: Edge[] = []
  for (let y = 3; y < height - 3; y++) {
    for (let x = 3; x < width - 3; x++) {
      const slope = slopeAt(y * width + x)
      if (slope.size < LEAST_SLOPE) continue
      const acrossX = slope.x / slope.size
      const acrossY = slope.y / slope.size
      const beside = (side: 1 | -1) =>
        slopeAt(Math.round(y + side * acrossY) * width + Math.round(x + side * acrossX)).size
      if (slope.size >= beside(1) && slope.size >= beside(-1)) {
        found.push({ x, y, acrossX, acrossY, slope: slope.size })
      }
    }
  }
  found.sort((a, b) => b.slope - a.slope)
  return spaced(found, width, height, apart, most)
}

function spaced(edges: readonly Edge[], width: number, height: number, apart: number, most: number): Edge[] {
  const taken = new Uint8Array(width * height)
  const kept: Edge[] = []
  for (const edge of edges) {
    if (kept.length >= most) break
    if (anyTaken(taken, width, height, edge, apart)) continue
    taken[edge.y * width + edge.x] = 1
    kept.push(edge)
  }
  return kept
}

function anyTaken(taken: Uint8Array, width: number, height: number, { x, y }: Edge, apart: number): boolean {
  for (let row = Math.max(0, y - apart); row <= Math.min(height - 1, y + apart); row++) {
    for (let column = Math.max(0, x - apart); column <= Math.min(width - 1, x + apart); column++) {
      if (taken[row * width + column] === 1) return true
    }
  }
  return false
}

/** Gaussian smoothing in two passes, the border repeated. */
function smoothed({ luma, width, height }: Patch, sigma: number): Float32Array {
  const radius = Math.ceil(3.5 * sigma)
  const kernel = Float64Array.from({ length: 2 * radius + 1 }, (_, i) =>
    Math.exp(-((i - radius) ** 2) / (2 * sigma ** 2)),
  )
  const total = kernel.reduce((sum, weight) => sum + weight, 0)
  const pass = (from: Float32Array, step: number, along: number, lines: number, lineStep: number) => {
    const out = new Float32Array(from.length)
    for (let line = 0; line < lines; line++) {
      for (let at = 0; at < along; at++) {
        let sum = 0
        for (let k = -radius; k <= radius; k++) {
          const place = Math.min(along - 1, Math.max(0, at + k))
          sum += (kernel[k + radius] as number) * (from[line * lineStep + place * step] as number)
        }
        out[line * lineStep + at * step] = sum / total
      }
    }
    return out
  }
  return pass(pass(luma, 1, width, height, width), width, height, width, 1)
}
