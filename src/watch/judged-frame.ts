import type { FrameCrop, FrameReport } from '../frames/frame-report.ts'
import { judgeFrame } from '../frames/judge-frame.ts'
import type { Standard } from '../judge/standard.ts'
import type { Verdict } from '../judge/verdict.ts'
import { adviceSentence } from '../report/frames/advice-words.ts'
import type { Frame } from '../session-log/state.ts'

/** The crop of a deliverable in a frame; the name is empty where the spec has none. */
export interface NamedCrop {
  readonly deliverable: string
  readonly crop: FrameCrop
}

/** A frame with what is said of it: a session holds all of its frames, so no more of the report than is shown. */
export interface JudgedFrame {
  readonly frame: Frame
  /** Null for a frame that can't be read. */
  readonly size: FrameReport['size']
  readonly crops: readonly NamedCrop[]
  readonly verdict: Verdict
  /** What the photographer is told: "Good." or what to change first. */
  readonly line: string
  /** What else there is to change, one sentence each. */
  readonly others: readonly string[]
}

export function judgedFrame(frame: Frame, { spec }: Standard): JudgedFrame {
  const { verdict, advice, size, rooms } = judgeFrame(frame.measured, spec, frame.fullSize)
  const sentences = advice.map((one) => adviceSentence(one))
  const binding = advice.filter(({ advisory }) => !advisory).length
  const [first, ...others] = binding > 0 ? sentences : ['Good.', ...sentences]
  const crops = rooms.flatMap(({ deliverable, crop }) =>
    crop ? [{ deliverable: deliverable ?? '', crop }] : [],
  )
  return { frame, size, crops, verdict, line: first ?? 'Good.', others: [...new Set(others)] }
}
