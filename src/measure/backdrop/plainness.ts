import type { LabPlanes } from '../../color/lab.ts'
import { thinned, valuesAt } from '../../imaging/pixel-indexes.ts'
import { fitSurface, surfaceAt } from '../../imaging/surface.ts'
import { between, erode } from '../../kernels/masks.ts'
import type { FaceGeometry } from '../face/face-axes.ts'
import { cellAt, EDGE, type PersonMask } from '../person/person-mask.ts'
import type { Backdrop } from './backdrop.ts'

/** From how sure the network is of a person on a cell is none of what is behind, 0..1. @choice far below what it says of people, far above what it says of walls. */
const PERSON = 0.1

/** How far from such a cell its hair may reach, cells. @choice a tenth of the distance between the eyes; no source. */
const HAIR = 4

/** Pixels that are looked at. @choice a share of so many is good to two hundredths. */
const SAMPLES = 2500

/** Places that are asked whether the sitter is there. @choice enough to leave `SAMPLES` of them beside large heads. */
const PLACES = 12_000

/** Least of the frame that has to show, share of it. @choice no source: less is a gap beside the sitter. */
const ENOUGH = 0.05

/** How far from a smooth surface a color still follows it, ΔE*ab. @tuned with the limits of `judgePlain`; it is the threshold of the backdrop itself. */
const FOLLOWS = 6

/** Least standard deviation of a fit, L*. @tuned so that a light that fails on one side, two thirds of a stop, bends the surface and leaves no second one. */
const SIGMA_FLOOR = 2

/**
 * How much of what is behind the sitter, beside and above the head, follows one smooth surface of color: 1 for a plain wall, graded or
 * not, little for a room or a street, however blurred. Null where too little of it shows.
 * @param mask of the window around the head
 */
export function plainShare(
  lab: LabPlanes,
  { width, height, foreign }: Pick<Backdrop, 'width' | 'height' | 'foreign'>,
  { chin }: Pick<FaceGeometry, 'chin'>,
  mask: PersonMask,
): number | null {
  const end = Math.min(height, Math.max(0, Math.round(chin.y)))
  const step = Math.max(1, Math.round(Math.sqrt((width * end) / PLACES)))
  const all = behindPerson(mask, foreign, width, end, step)
  if (all.length * step ** 2 < ENOUGH * width * height) return null
  const samples = thinned(all, SAMPLES)
  const xs = new Float32Array(samples.length)
  const ys = new Float32Array(samples.length)
  for (let k = 0; k < samples.length; k++) {
    const i = samples[k] as number
    xs[k] = (2 * ((i % width) + 0.5)) / width - 1
    ys[k] = (2 * (Math.floor(i / width) + 0.5)) / height - 1
  }
  const off = new Float64Array(samples.length)
  for (const plane of [lab.L, lab.a, lab.b]) {
    const values = valuesAt(plane, samples)
    const { surface } = fitSurface(xs, ys, values, SIGMA_FLOOR)
    for (let k = 0; k < off.length; k++)
      off[k] =
        (off[k] as number) +
        ((values[k] as number) - surfaceAt(surface, xs[k] as number, ys[k] as number)) ** 2
  }
  let following = 0
  for (const square of off) if (square <= FOLLOWS ** 2) following++
  return following / off.length
}

/** 1 where a cell is clear of the person and of hair. */
function clearOfPerson({ values }: PersonMask): Uint8Array {
  return erode(between(values, -Infinity, PERSON), EDGE, EDGE, HAIR)
}

/** Indexes of every `step`th pixel of every `step`th row above `end` that is behind the person, as all is outside the window, and not foreign. */
function behindPerson(
  mask: PersonMask,
  foreign: Uint8Array | null,
  width: number,
  end: number,
  step: number,
): Int32Array {
  const clear = clearOfPerson(mask)
  const columns = new Int32Array(Math.ceil(width / step))
  for (let k = 0; k < columns.length; k++) columns[k] = cellNear(cellAt(mask, k * step + 0.5, 0).column)
  const all = new Int32Array(columns.length * Math.ceil(end / step))
  let count = 0
  for (let y = 0; y < end; y += step) {
    const row = cellNear(cellAt(mask, 0, y + 0.5).row)
    for (let k = 0, i = y * width; k < columns.length; k++, i += step) {
      const column = columns[k] as number
      const isBehind = row < 0 || column < 0 || clear[row * EDGE + column] === 1
      if (isBehind && foreign?.[i] !== 1) all[count++] = i
    }
  }
  return all.subarray(0, count)
}

/** The cell next to a place; -1 outside the window. */
function cellNear(place: number): number {
  const cell = Math.round(place)
  return cell >= 0 && cell < EDGE ? cell : -1
}
