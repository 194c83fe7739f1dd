import type { PictureSignature } from '../measure/schema/measurements.ts'
import { alignment, type Reach } from './align-grids.ts'
import { correlation, type Likeness, likeness } from './grid-likeness.ts'
import { IDENTITY, type LumaGrid, mirrored, moved, readGrid, type Similarity } from './luma-grid.ts'

/** A signature made ready to be compared many times. */
export interface ReadySignature {
  readonly face: BothWays | null
  readonly head: BothWays | null
  readonly frame: BothWays
  /** Luma of the frame's cells at every sixteenth of their order, from dark to light. */
  readonly steps: Float32Array
}

interface BothWays {
  readonly plain: LumaGrid
  readonly mirror: LumaGrid
}

/** Null when the signature is damaged. */
export function ready(signature: PictureSignature): ReadySignature | null {
  const frame = readGrid(signature.frame)
  if (!frame) return null
  const face = signature.face && readGrid(signature.face)
  const head = signature.head && readGrid(signature.head)
  return {
    face: face && bothWays(face),
    head: head && bothWays(head),
    frame: bothWays(frame),
    steps: stepsOf(frame),
  }
}

function bothWays(plain: LumaGrid): BothWays {
  return { plain, mirror: mirrored(plain) }
}

const STEPS = 16

function stepsOf({ luma }: LumaGrid): Float32Array {
  const counts = new Uint32Array(256)
  for (const value of luma) counts[value] = (counts[value] as number) + 1
  const inFrame = luma.length - (counts[0] as number)
  const steps = new Float32Array(STEPS)
  let value = 0
  let passed = 0
  for (let step = 0; step < STEPS && inFrame > 0; step++) {
    const rank = Math.floor(((step + 0.5) / STEPS) * inFrame)
    while (passed <= rank) passed += counts[++value] as number
    steps[step] = value
  }
  return steps
}

export interface PairLikeness extends Likeness {
  readonly isMirrored: boolean
}

// Irises of a turned or small face are found up to a third of their distance off.
const BY_IRISES: Reach = { shift: 8, stretch: 0.3 }
const BY_HEAD: Reach = { shift: 2, stretch: 0.3 }

/** How alike the faces are, laid on each other by the irises; null when one has none or they can't be laid so. */
export function faceLikeness(a: ReadySignature, b: ReadySignature): PairLikeness | null {
  return better(
    () => facesLaid(a, b, 'plain'),
    () => facesLaid(a, b, 'mirror'),
  )
}

function facesLaid(a: ReadySignature, b: ReadySignature, way: 'plain' | 'mirror'): PairLikeness | null {
  if (!a.face || !b.face || !a.head || !b.head) return null
  const head = alignment(a.head.plain, b.head[way], BY_HEAD)
  const starts = head ? [IDENTITY, onFace(head)] : [IDENTITY]
  return onEach(a.face.plain, b.face[way], BY_IRISES, starts, way === 'mirror')
}

// The signature's grids have 5 and 20 cells an eye distance; the middle of the face's lies 0.4 eye distances, 8 of its
// cells, below that of the head's.
const FINER = 4
const LOWER = 8

/** A movement of the head's grid as one of the face's. */
function onFace({ a, b, dx, dy }: Similarity): Similarity {
  return { a, b, dx: FINER * dx - LOWER * b, dy: FINER * dy + LOWER * (a - 1) }
}

// A crop by 10 % shows things a ninth larger, and may be taken from any corner: 5 % of 32 cells to each side.
const BY_FRAME: Reach = { shift: 5, stretch: 0.2 }
const STRETCHES = [1, 0.9, 1 / 0.9].map((a): Similarity => ({ ...IDENTITY, a }))

/** How alike the frames are as a whole, one of them perhaps cropped a little. */
export function frameLikeness(a: ReadySignature, b: ReadySignature): PairLikeness | null {
  return better(
    () => onEach(a.frame.plain, b.frame.plain, BY_FRAME, STRETCHES, false),
    () => onEach(a.frame.plain, b.frame.mirror, BY_FRAME, STRETCHES, true),
  )
}

// Above this nothing better will come of the mirror.
const PLAINLY = 0.9

/** The more alike of the two; the mirror is not looked into when there is no need. */
function better(plain: () => PairLikeness | null, mirror: () => PairLikeness | null): PairLikeness | null {
  const first = plain()
  if (first && first.local > PLAINLY) return first
  const second = mirror()
  if (!first || !second) return first ?? second
  return second.local > first.local ? second : first
}

function onEach(
  a: LumaGrid,
  b: LumaGrid,
  reach: Reach,
  starts: readonly Similarity[],
  isMirrored: boolean,
): PairLikeness | null {
  let best: LumaGrid | null = null
  let most = -1
  for (const start of starts) {
    const move = alignment(a, b, reach, start)
    if (!move) continue
    const laid = moved(b, move, a)
    const whole = correlation(a, laid)
    if (whole > most) {
      most = whole
      best = laid
    }
  }
  return best && { ...likeness(a, best), isMirrored }
}

/** Mean difference of the steps of luma, in codes: small for copies, also mirrored and cropped a little. */
export function toneDistance(a: ReadySignature, b: ReadySignature): number {
  let sum = 0
  for (let i = 0; i < STEPS; i++) sum += Math.abs((a.steps[i] as number) - (b.steps[i] as number))
  return sum / STEPS
}

/** Correlation of the faces as they lie, the better of plain and mirrored; null without two faces. */
export function roughFaceLikeness(a: ReadySignature, b: ReadySignature): number | null {
  if (!a.face || !b.face) return null
  return Math.max(correlation(a.face.plain, b.face.plain), correlation(a.face.plain, b.face.mirror))
}
