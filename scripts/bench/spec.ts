import { HEIGHT, WIDTH } from './corpus.ts'

const FILES = `
naming: { pattern: "Sitter-{staff-id}.jpg", fields: { staff-id: { digits: 5 } } }
file-format: { allow: [jpeg] }
pixel-size: { width: ${WIDTH}, height: ${HEIGHT} }
aspect-ratio: "4:5"
compression: { quality: { min: 90 } }
color-space: { profile: sRGB, allow-monochrome: true }
bit-depth: 8
orientation: upright
metadata-required: { creator: true, copyright: "Osprey Lane Veterinary Group" }
metadata-forbidden: [location, camera-serial, lens-serial]
`
const PICTURES = `
stale-preview: true
background-lightness: { target: 96, tolerance: 2.5 }
background-unevenness: { max: 4 }
background-tint: { max-chroma: 3 }
backdrop-edge: true
headroom: { min: 5, max: 13 }
eye-line: { min: 33, max: 42 }
head-height: { min: 44, max: 58 }
centering: { max: 3 }
tilt: { max: 2.5 }
facing: { turn: { max: 15 }, nod: { max: 15 } }
lens-glare: { max: 3 }
clipping: { highlights: { max: 2 }, shadows: { max: 2 } }
key-side: { side: left, ratio: { min: 0.3, max: 1.5 } }
eye-focus: { max: 2 }
set-match: {}
`

/** Every rule on files and pictures. @param headroom of the band's upper end, so that a spec can be changed */
export function fullSpec(headroom = 13): string {
  return `brand: Bench\nversion: 1\n${FILES}${PICTURES.replace('max: 13', `max: ${headroom}`)}`
}

/** Every rule on files, and no picture decoded. */
export function fileSpec(): string {
  return `brand: Bench\nversion: 1\nintact: false\none-face: false\n${FILES}`
}
