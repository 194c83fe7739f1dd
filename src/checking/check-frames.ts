import type { Found } from '../delivery/walk.ts'
import { judgeFrame } from '../frames/judge-frame.ts'
import { frameGroups } from '../frames/needs.ts'
import { byFrame } from '../frames/one-frame.ts'
import type { Standard } from '../judge/standard.ts'
import { TOOL } from '../judge/tool.ts'
import type { MeasurementGroup, Measurements } from '../measure/schema/measurements.ts'
import { type Means, measureAll } from '../pool/measure-all.ts'
import { type CardFrame, type CardReport, cardReport } from '../session/card-report.ts'
import { driftOf, type SessionFrame } from '../session/drift.ts'
import { driftTraitsOf } from '../session/drift-traits.ts'
import { EXIT, type Host } from './host.ts'
import { type MeasuringOptions, meansOf } from './means.ts'
import { progressLine } from './progress.ts'
import { picksOf, sittersOf } from './sitters.ts'

interface FramesCheck {
  readonly found: Found
  readonly standard: Standard
  readonly strict: boolean
}

/** Measures and judges frames as the camera made them, sitter by sitter, and shows how it goes on. */
export async function checkFramesShowing(
  check: FramesCheck,
  measuring: MeasuringOptions,
  host: Host,
): Promise<CardReport> {
  const progress = progressLine(host)
  const report = await checkFrames(check, await meansOf(measuring, host, progress.show))
  progress.clear()
  return report
}

/** Measures and judges frames as the camera made them, sitter by sitter. */
async function checkFrames({ found, standard, strict }: FramesCheck, means: Means): Promise<CardReport> {
  const { spec } = standard
  const groups: MeasurementGroup[] = [...new Set<MeasurementGroup>([...frameGroups(spec), 'metadata'])]
  const sources = found.files.map((file) => ({ ...file, isFrame: true }))
  const measured = await measureAll(sources, groups, means)
  const sitters = sittersOf(found.files, standard)
  const picks = picksOf(measured, standard)
  const files = measured.map((one) => ({
    file: one.file,
    captureTime: one.metadata?.captureTime ?? null,
    measured: one,
  }))
  const single = byFrame(files)
  const frames = single.map(({ judged, others }) => {
    const paths = [judged, ...others].map(({ file }) => file)
    const frame: CardFrame = {
      ...judgeFrame(judged.measured, spec),
      pickedBy: [...new Set(paths.flatMap((file) => picks.get(file) ?? []))],
      otherFiles: paths.slice(1),
    }
    return { sitter: sitters.get(judged.file) ?? null, frame }
  })
  const { left } = found
  return cardReport({
    tool: TOOL,
    spec,
    strict,
    left,
    frames,
    drift: driftIn(
      single.map(({ judged }) => judged.measured),
      sitters,
    ),
  })
}

/** The exit code: 1 when a sitter has no usable frame, with `strict` also when the best is unsure. */
export function framesExit({ verdict, strict }: CardReport): number {
  return verdict === 'fail' || (strict && verdict === 'unsure') ? EXIT.fails : EXIT.fine
}

/** What has drifted from frame to frame, of those whose camera told when. */
function driftIn(
  measured: readonly Measurements[],
  sitters: ReadonlyMap<string, string>,
): CardReport['drift'] {
  const times = new Map(measured.map(({ file, metadata }) => [file, metadata?.captureTime ?? '']))
  const frames = measured.flatMap((one): SessionFrame[] => {
    const at = Date.parse(times.get(one.file) ?? '')
    if (Number.isNaN(at)) return []
    return [{ file: one.file, at, sitter: sitters.get(one.file) ?? null, traits: driftTraitsOf(one) }]
  })
  const inOrder = frames.toSorted((a, b) => a.at - b.at)
  return driftOf(inOrder).map((drift) => ({ ...drift, time: times.get(drift.file) ?? '' }))
}
