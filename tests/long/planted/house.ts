import type { Frame } from '../../../examples/drawing/frame.ts'
import type { Sitter } from '../../../examples/drawing/sitters.ts'

export type Deliverable = 'print' | 'web'
export const DELIVERABLES: readonly Deliverable[] = ['print', 'web']

/** A part of the uncropped frame, px. */
export interface Cut {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

/** How a deliverable is cut from the uncropped frame, and its size, px. */
export const OUTPUTS: Readonly<
  Record<Deliverable, { cut: Cut; widthPx: number; heightPx: number; ppi: number }>
> = {
  print: { cut: { left: 150, top: 110, width: 600, height: 750 }, widthPx: 600, heightPx: 750, ppi: 300 },
  web: { cut: { left: 120, top: 132, width: 660, height: 660 }, widthPx: 480, heightPx: 480, ppi: 72 },
}

export const BRAND = `brand: Osprey Lane Veterinary Group
version: 3
naming:
  pattern: "{deliverable}/{family}-{given}_{staff-id}.jpg"
  fields:
    staff-id: { digits: 5 }
deliverables:
  print:
    aspect-ratio: "4:5"
    pixel-size: { width: 600, height: 750 }
    resolution: { ppi: 300 }
    compression: { quality: { min: 90 }, subsampling: "4:4:4", progressive: false }
    headroom: { min: 5, max: 13 }
    eye-line: { min: 33, max: 42 }
    head-height: { min: 44, max: 58 }
    eye-focus: { max: 4 }
  web:
    aspect-ratio: "1:1"
    pixel-size: { width: 480, height: 480 }
    file-size: { max: 200 kB }
    compression: { quality: { min: 85 } }
    headroom: { min: 3, max: 11 }
    eye-line: { min: 32, max: 44 }
    head-height: { min: 50, max: 66 }
file-format: { allow: [jpeg] }
color-space: sRGB
bit-depth: 8
orientation: upright
metadata-required: { creator: true, copyright: "Osprey Lane Veterinary Group", alt-text: "{given} {family}" }
metadata-forbidden: [location, camera-serial, lens-serial]
stale-preview: true
background-lightness: { target: 96, tolerance: 2.5 }
background-unevenness: { max: 4 }
background-tint: { max-chroma: 3 }
backdrop-edge: true
centering: { max: 3 }
tilt: { max: 2.5 }
key-side: { side: left, ratio: { min: 0.2, max: 1.2 } }
clipping: { highlights: { max: 2 } }
roster: staff.csv
variants: all
duplicate-picture: none
same-frame: all
picked-frame: roster
set-match: {}
`

/** The uncropped frame, with room on all sides of both crops; sitters never sit quite alike. */
export function frameOf(sitter: Sitter): Frame {
  const habit = Number(sitter.staffId)
  const between = (low: number, high: number, step: number): number =>
    low + ((high - low) * ((habit * step) % 101)) / 100
  const down = (share: number) => (OUTPUTS.print.cut.top + share * OUTPUTS.print.cut.height) / HEIGHT_PX
  return {
    widthPx: 900,
    heightPx: HEIGHT_PX,
    placement: { crownY: down(between(0.088, 0.1, 7)), chinY: down(between(0.602, 0.616, 13)) },
    offsetX: between(-0.005, 0.005, 29),
    tiltDeg: between(-1.1, 1.1, 31),
    backdrop: { color: { L: 96.4, a: 0, b: 0 }, vignetteStops: 0.05 },
    key: { side: 'left', ratioStops: 0.6 },
    noise: 0.45,
  }
}
const HEIGHT_PX = 1000

export function pathOf(deliverable: Deliverable, { family, given, staffId }: Sitter): string {
  return `${deliverable}/${family}-${given}_${staffId}.jpg`
}

/** Name of the camera's file; the sitter picked the third frame. */
export function rawName({ staffId }: Sitter, frame = 3): string {
  return `OL${staffId}_000${frame}.RAF`
}

/** The list of people, with the frames that they picked. */
export function rosterOf(staff: readonly Sitter[]): string {
  const rows = staff.map((sitter) => [sitter.family, sitter.given, sitter.staffId, rawName(sitter)].join(','))
  return `${['family,given,staff-id,pick', ...rows].join('\n')}\n`
}
