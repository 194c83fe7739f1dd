import type { FrameReport } from '../frames/frame-report.ts'
import { judgeFrame } from '../frames/judge-frame.ts'
import type { Standard } from '../judge/standard.ts'
import type { Verdict } from '../judge/verdict.ts'
import { adviceSentence } from '../report/frames/advice-words.ts'
import type { Frame } from '../session-log/state.ts'

/** A frame with what is said of it. */
export interface JudgedFrame {
  readonly frame: Frame
  readonly report: FrameReport
  readonly verdict: Verdict
  /** What the photographer is told: "Good." or what to change first. */
  readonly line: string
  /** What else there is to change, one sentence each. */
  readonly others: readonly string[]
}

export function judgedFrame(frame: Frame, { spec }: Standard): JudgedFrame {
  const report = judgeFrame(frame.measured, spec, frame.fullSize)
  const { verdict, advice } = report
  const sentences = advice.map((one) => adviceSentence(one))
  const binding = advice.filter(({ advisory }) => !advisory).length
  const [first, ...others] = binding > 0 ? sentences : ['Good.', ...sentences]
  return { frame, report, verdict, line: first ?? 'Good.', others: [...new Set(others)] }
}
