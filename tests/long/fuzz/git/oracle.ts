import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Report } from '../../../../src/judge/report.ts'

/** A delivery as a full check of a plain checkout judges it, which knows nothing of git. */
export interface Full {
  readonly exit: number
  /** Null when nothing could be judged. */
  readonly report: Report | null
  /** The folder that the names in the report refer to. */
  readonly root: string
}

type Outcome = Report['delivery']['outcomes'][number]

/**
 * Why a change must not be let through, by full checks of both its sides; null when all that fails after it failed before
 * in the same way, in files that it does not touch.
 */
export async function refusal(now: Full, before: Full): Promise<string | null> {
  if (now.report === null) return 'nothing could be judged'
  const touched = new Set<string>()
  const names = now.report.files.map(({ file }) => file)
  for (const file of names) {
    const [a, b] = await Promise.all(
      [now, before].map(({ root }) => readFile(join(root, file)).catch(() => null)),
    )
    if (!a || !b || !a.equals(b)) touched.add(file)
  }
  for (const { file, verdict } of now.report.files)
    if (verdict === 'fail' && touched.has(file)) return `${file} fails and was touched`
  const left = before.report?.delivery.outcomes.filter(isFailure).map(said) ?? []
  for (const outcome of now.report.delivery.outcomes.filter(isFailure)) {
    const at = left.indexOf(said(outcome))
    if (at < 0) return `new: ${outcome.reason}`
    left.splice(at, 1)
    const named = outcome.files.find((file) => touched.has(file))
    if (named !== undefined) return `${outcome.reason} names ${named}, which was touched`
  }
  return null
}

function isFailure({ verdict, advisory, waiver }: Outcome): boolean {
  return verdict === 'fail' && !advisory && waiver === undefined
}

function said({ rule, people, files, reason }: Outcome): string {
  return JSON.stringify([rule, people, files, reason])
}
