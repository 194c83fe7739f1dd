import type { Backdrop, Frame, KeyLight } from '../drawing/frame.ts'
import type { Sitter } from '../drawing/sitters.ts'
import type { Retouch } from './retouching.ts'

export type Deliverable = 'print' | 'web'

/** How a deliverable is cut from the picture and saved. */
export interface Output {
  readonly widthPx: number
  readonly heightPx: number
  readonly ppi: number
  /** JPEG quality, 1 to 100. */
  readonly quality: number
  readonly subsampling: '4:4:4' | '4:2:0'
  readonly retouch?: Retouch
  /** Straightened by so many degrees, clockwise, and not cropped: the corners are white. */
  readonly turnedDeg?: number
  /** The part of the picture that is kept, px. */
  readonly crop: {
    readonly left: number
    readonly top: number
    readonly width: number
    readonly height: number
  }
}

export const OUTPUTS: Record<Deliverable, Output> = {
  print: {
    widthPx: 1200,
    heightPx: 1500,
    ppi: 300,
    quality: 92,
    subsampling: '4:4:4',
    crop: { left: 100, top: 0, width: 1200, height: 1500 },
  },
  web: {
    widthPx: 600,
    heightPx: 600,
    ppi: 72,
    quality: 88,
    subsampling: '4:4:4',
    crop: { left: 40, top: 44, width: 1320, height: 1320 },
  },
}

/** White paper a little under the clipping point, L* 96. */
export const PAPER: Backdrop = { color: { L: 96.4, a: 0, b: 0 }, vignetteStops: 0.05 }

const KEY: KeyLight = { side: 'left', ratioStops: 0.6 }

/** The picture both deliverables are cut from; sitters never sit quite alike. */
export function pictureOf(sitter: Sitter): Frame {
  const habit = Number(sitter.staffId)
  const between = (low: number, high: number, step: number): number =>
    low + ((high - low) * ((habit * step) % 101)) / 100
  return {
    widthPx: 1400,
    heightPx: 1500,
    placement: { crownY: between(0.088, 0.1, 7), chinY: between(0.602, 0.616, 13) },
    offsetX: between(-0.008, 0.008, 29),
    tiltDeg: between(-1.1, 1.1, 31),
    backdrop: PAPER,
    key: KEY,
    noise: 0.45,
    skinTexture: 0.045,
  }
}

/** `{deliverable}/{family}-{given}_{staff-id}.jpg` */
export function fileName(deliverable: Deliverable, sitter: Sitter, staffId = sitter.staffId): string {
  return `${deliverable}/${sitter.family}-${sitter.given}_${staffId}.jpg`.normalize('NFC')
}
