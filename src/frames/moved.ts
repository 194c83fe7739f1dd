import type { Size } from '../framing/ask.ts'
import type { Background, Box, Measurements } from '../measure/schema/measurements.ts'

export interface Point {
  readonly x: number
  readonly y: number
}

/** Where the things in a picture come to lie in another one that is made from it by geometry alone. */
export interface Move {
  readonly size: Size
  /** Shares of the picture to shares of the other one. */
  readonly point: (at: Point) => Point
  readonly box: (at: Box) => Box
  /** What a share of the width, and of the height, becomes. */
  readonly wider: number
  readonly higher: number
  /** By how many degrees it is turned, positive clockwise. */
  readonly turnDeg: number
}

/** What the other picture would measure. */
export function moved(measured: Measurements, move: Move): Measurements {
  const { face, head, background } = measured
  const { size, point, box, wider, higher, turnDeg } = move
  const maybe = <T, R>(value: T | null, change: (value: T) => R): R | null =>
    value === null ? null : change(value)
  const down = (pct: number | null) => maybe(pct, (value) => value * higher)
  const { eyeLinePct = null, offCenterPct = null } = head ?? {}
  const eyes =
    eyeLinePct === null || offCenterPct === null
      ? null
      : point({ x: 0.5 + offCenterPct / 100, y: eyeLinePct / 100 })
  const crown = head?.crown ? point(head.crown) : null
  return {
    ...measured,
    ...{ widthPx: size.widthPx, heightPx: size.heightPx },
    ...(face && {
      face: { ...face, box: maybe(face.box, box), tiltDeg: maybe(face.tiltDeg, (deg) => deg + turnDeg) },
    }),
    ...(head && {
      head: {
        ...head,
        crown,
        chin: maybe(head.chin, point),
        headroomPct: maybe(crown, ({ y }) => 100 * y),
        crownErrorPct: down(head.crownErrorPct),
        eyeLinePct: maybe(eyes, ({ y }) => 100 * y),
        eyeLineErrorPct: down(head.eyeLineErrorPct),
        headHeightPct: down(
          head.headHeightPct && head.headHeightPct * lengthening(face?.tiltDeg ?? 0, turnDeg),
        ),
        headHeightErrorPct: down(head.headHeightErrorPct),
        offCenterPct: maybe(eyes, ({ x }) => 100 * (x - 0.5)),
        offCenterErrorPct: maybe(head.offCenterErrorPct, (pct) => pct * wider),
      },
    }),
    ...(background && { background: movedBackdrop(background, move) }),
  }
}

/** What the height of a head becomes when it is turned: its length along its own axis stays. */
function lengthening(tiltDeg: number, turnDeg: number): number {
  const cosine = (deg: number) => Math.cos((deg * Math.PI) / 180)
  return cosine(tiltDeg + turnDeg) / cosine(tiltDeg)
}

/** Rounding of a share, which must not let what ends at an edge reach over it. @choice far above double precision, far below a pixel */
const HAIR = 1e-9

/** What stands at the edges, as far as it is in the other picture. */
function movedBackdrop(background: Background, { box, wider, higher }: Move): Background {
  const { intrusions, straightening } = background
  const inside = ({ x, y, width, height }: Box) =>
    Math.max(x, y) < 1 - HAIR && Math.min(x + width, y + height) > HAIR
  const areaPct = (pct: number) => pct * wider * higher
  const regions = straightening?.regions
    .map((one) => ({ ...one, box: box(one.box) }))
    .filter((one) => inside(one.box))
  return {
    ...background,
    intrusions:
      intrusions
        ?.map((one) => ({ ...one, box: box(one.box), areaPct: areaPct(one.areaPct) }))
        .filter((one) => inside(one.box)) ?? null,
    straightening:
      straightening && regions && regions.length > 0
        ? { ...straightening, areaPct: areaPct(straightening.areaPct), regions }
        : null,
  }
}
