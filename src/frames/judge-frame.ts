import type { Spec } from '../brand-spec/spec.ts'
import type { Size } from '../framing/ask.ts'
import { type Verdict, verdictOf } from '../judge/verdict.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import { firstThingsFirst } from './advice.ts'
import { cropRoomOf } from './crop-room.ts'
import type { CropRoom, FrameReport, SceneOutcome } from './frame-report.ts'
import { nearestOf } from './nearest.ts'
import { roomAdvice } from './room-advice.ts'
import { judgeScene } from './scene.ts'
import { sceneAdvice } from './scene-advice.ts'

/**
 * Judges a frame as the camera made it: by the rules that no crop changes, and for each deliverable by whether there is a crop that
 * meets those on the framing. What export decides is left out.
 * @param measured of the groups that `frameGroups` names
 * @param fullSize the size of the frame, where a smaller preview of it was measured
 */
export function judgeFrame(
  measured: Measurements,
  spec: Spec,
  fullSize: Size | null = measured.fullSize ?? null,
): FrameReport {
  const { scene, causes } = judgeScene(measured, spec)
  const atFullSize = fullSize ? { ...measured, ...fullSize } : measured
  const solved = deliverablesOf(spec).map((deliverable) => {
    const { room, obstacle } = cropRoomOf(atFullSize, spec, deliverable, causes.has('no-face'))
    return { room, advice: roomAdvice(room, obstacle, atFullSize) }
  })
  const rooms = solved.map(({ room }) => room)
  const advice = [...sceneAdvice(scene, measured), ...solved.flatMap((one) => one.advice)]
  const { widthPx, heightPx } = atFullSize
  return {
    file: measured.file,
    size: widthPx && heightPx ? { widthPx, heightPx } : null,
    verdict: frameVerdict(scene, rooms),
    scene,
    rooms,
    advice: firstThingsFirst(advice),
    nearest: nearestOf(scene, rooms),
  }
}

/** The deliverables that a frame is to serve; null stands for the one portrait that a spec without deliverables asks for. */
function deliverablesOf({ deliverables }: Spec): (string | null)[] {
  const names = Object.keys(deliverables)
  return names.length > 0 ? names : [null]
}

function frameVerdict(scene: readonly SceneOutcome[], rooms: readonly CropRoom[]): Verdict {
  const asked = rooms.map(({ verdict }) => ({ verdict, rule: 'crop-room', advisory: false }))
  return verdictOf(
    [...scene, ...asked].map((one) => ({ measured: null, expected: null, reason: '', ...one })),
  )
}
