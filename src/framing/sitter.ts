import { DECIDING_SHARE, SURE } from '../measure/schema/confidence.ts'
import type { Doubt, Measurements } from '../measure/schema/measurements.ts'
import { sideOf } from '../numbers/limits.ts'
import type { FramingAsk, Size } from './ask.ts'

/** What of the sitter decides a crop, in px of the frame from its top left corner. */
export interface Sitter {
  readonly frame: Size
  readonly crownY: number
  readonly chinY: number
  /** Crown to chin along the axis of the face, projected on the height. */
  readonly headHeight: number
  /** How far within its limits each must be, so that its own error leaves no doubt. */
  readonly errors: Readonly<Record<'crown' | 'eyeLine' | 'headHeight' | 'offCenter', number>>
  /** The middle between the irises. */
  readonly eyes: { readonly x: number; readonly y: number }
  readonly faceLeft: number
  readonly faceRight: number
  /** Positive clockwise in the frame. */
  readonly tiltDeg: number
}

/** Whether the head leans more than is asked, so that the picture has to be turned before it is cropped. */
export function leansTooMuch({ tiltDeg }: Sitter, { tilt }: FramingAsk): boolean {
  return tilt !== undefined && sideOf(tiltDeg, tilt) !== 'inside'
}

/** The sitter from one file's measurements, or the doubts why not: none when head or face were not measured at all. */
export function sitterOf(measured: Measurements): Sitter | { readonly doubts: readonly Doubt[] } {
  const { fault, widthPx, heightPx, face, head } = measured
  if (fault || !widthPx || !heightPx || !face || !head) return { doubts: [] }
  const { crown, chin, headroomPct, eyeLinePct, headHeightPct, offCenterPct } = head
  const { box, tiltDeg } = face
  const doubts = [...new Set([...face.doubts, ...head.doubts])]
  if (Math.min(face.confidence, head.confidence) < SURE || !crown || !chin || !box) return { doubts }
  if (headroomPct === null || eyeLinePct === null || headHeightPct === null) return { doubts }
  if (offCenterPct === null || tiltDeg === null) return { doubts }
  const [across, down] = [widthPx / 100, heightPx / 100]
  const deciding = (error: number | null) => DECIDING_SHARE * (error ?? 0)
  return {
    frame: { widthPx, heightPx },
    crownY: headroomPct * down,
    chinY: Math.min(chin.y * heightPx, heightPx),
    headHeight: headHeightPct * down,
    errors: {
      crown: deciding(head.crownErrorPct) * down,
      eyeLine: deciding(head.eyeLineErrorPct) * down,
      headHeight: deciding(head.headHeightErrorPct) * down,
      offCenter: deciding(head.offCenterErrorPct) * across,
    },
    eyes: { x: (0.5 + offCenterPct / 100) * widthPx, y: eyeLinePct * down },
    faceLeft: Math.max(box.x * widthPx, 0),
    faceRight: Math.min((box.x + box.width) * widthPx, widthPx),
    tiltDeg,
  }
}
