import type { Spec } from '../../src/brand-spec/spec.ts'
import type { Background, Measurements } from '../../src/measure/schema/measurements.ts'
import { type Asked, measuredAt, type Place } from '../framing/cases.ts'
import { randomAsk, randomIntrusions, randomPlace } from '../framing/random-cases.ts'
import { SPEC } from '../judge/sample.ts'
import { GOOD } from '../rules/judging/cases.ts'

/** A sitter in a frame, in px; errors are those within which values decide. */
export interface RandomFrame extends Place {
  readonly tiltDeg: number
  readonly faceTop: number
  readonly faceHeight: number
  readonly errors: Readonly<Record<'crown' | 'eyeLine' | 'headHeight' | 'offCenter' | 'tilt', number>>
  readonly intrusions: readonly Intrusion[]
  /** Whether the edges of the frame were measured with confidence. */
  readonly edgesKnown: boolean
}

interface Intrusion {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
  readonly areaPx: number
}

type Random = () => number

export function randomFrame(random: Random, most: number): RandomFrame {
  const place = randomPlace(random, 12, most)
  const leans = random() < 0.4
  const some = (px: number) => (random() < 0.5 ? 0 : random() * px)
  const unit = place.height / 30
  return {
    ...place,
    tiltDeg: leans ? (random() - 0.5) * 16 : 0,
    faceTop: place.crown + 0.2 * (place.chin - place.crown),
    faceHeight: 0.8 * (place.chin - place.crown),
    errors: {
      crown: some(unit),
      eyeLine: some(unit / 2),
      headHeight: some(unit),
      offCenter: some(unit / 2),
      tilt: leans ? some(2) : 0,
    },
    intrusions:
      random() < 0.7
        ? []
        : randomIntrusions(random, place).map((one) => ({
            ...one,
            areaPx: (one.right - one.left) * (one.bottom - one.top) * (0.3 + 0.7 * random()),
          })),
    edgesKnown: random() < 0.9,
  }
}

export function randomOrder(random: Random, frame: RandomFrame): Asked {
  return {
    ...randomAsk(random, frame),
    ...(random() < 0.6 && {
      tilt: random() < 0.7 ? { max: 5 * random() } : { target: 2, tolerance: 2 * random() },
    }),
    ...(random() < 0.5 && { 'backdrop-edge': random() < 0.5 ? true : { 'smallest-pct': 1 + 9 * random() } }),
  }
}

/** Errors are told twice as large as they decide. */
const TOLD = 2

export function measuredFrame(frame: RandomFrame): Measurements {
  const { width, height, errors, faceTop, faceHeight, tiltDeg, intrusions, edgesKnown } = frame
  const measured = measuredAt(frame, {
    face: { tiltErrorDeg: TOLD * errors.tilt, tiltDeg },
    head: {
      crownErrorPct: (100 * TOLD * errors.crown) / height,
      eyeLineErrorPct: (100 * TOLD * errors.eyeLine) / height,
      headHeightErrorPct: (100 * TOLD * errors.headHeight) / height,
      offCenterErrorPct: (100 * TOLD * errors.offCenter) / width,
    },
  })
  const { face } = measured
  return {
    ...measured,
    ...(face?.box && {
      face: { ...face, box: { ...face.box, y: faceTop / height, height: faceHeight / height } },
    }),
    background: {
      ...(GOOD.background as Background),
      intrusions: intrusions.map(({ left, top, right, bottom, areaPx }) => ({
        side: 'left' as const,
        box: {
          x: left / width,
          y: top / height,
          width: (right - left) / width,
          height: (bottom - top) / height,
        },
        areaPct: (100 * areaPx) / (width * height),
      })),
      ...(!edgesKnown && { confidence: 0.4, doubts: ['backdrop-not-plain' as const] }),
    },
  }
}

export function orderOf(asked: Asked): Spec {
  return { ...SPEC, naming: null, settings: asked, deliverables: {}, advisory: [] }
}
