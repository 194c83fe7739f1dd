import { resolve } from 'node:path'
import type { Host } from '../../checking/host.ts'
import { UsageError } from '../../checking/usage-error.ts'
import { causeOf } from '../../files/cause.ts'
import { readAtMost } from '../../files/read-at-most.ts'
import type { Report } from '../../judge/report.ts'
import { TOOL } from '../../judge/tool.ts'
import { fitsReport } from './fits-report.ts'

// A portrait takes some 20 kB of a report; ten thousand fit, and what is longer than 512 MiB is no text to Node.
const MOST_BYTES = 256 * 1024 * 1024

/** What sentences say of a report that can't be used. */
export interface Wanted {
  /** What to name instead: "name the reports that check --shard wrote with --format json". */
  readonly instead: string
  /** What to do about one of another version: "check the part again with this version". */
  readonly renew: string
  /** What to do about one that is too large. */
  readonly smaller: string
}

/**
 * Makes what reads JSON reports of this version.
 * @returns reads the report at a path; it throws UsageError when the file can't be read or is no such report
 */
export function reportReader(host: Host, wanted: Wanted): (path: string) => Promise<Report> {
  return async (path) => {
    const report = await readJson(path, host, wanted)
    if (fitsReport(report)) {
      if (report.tool.version === TOOL.version) return report
    }
    throw unfit(path, report, wanted)
  }
}

async function readJson(path: string, host: Host, { instead, smaller }: Wanted): Promise<unknown> {
  let text: string
  try {
    const read = await readAtMost(resolve(host.cwd, path), MOST_BYTES)
    if ('refused' in read)
      throw new UsageError(
        read.refused === 'no-file'
          ? `${path} is not a regular file; ${instead}.`
          : `${path} is over ${MOST_BYTES / 1024 / 1024} MiB; ${smaller}.`,
      )
    text = read.data.toString('utf8')
  } catch (error) {
    if (error instanceof UsageError) throw error
    const code = causeOf(error)
    throw new UsageError(
      code === 'ENOENT'
        ? `There is no file ${path}. Check the path and run again.`
        : `${path} could not be read (${code}). Check that it is a file and that you may read it.`,
    )
  }
  try {
    return JSON.parse(text)
  } catch {
    throw new UsageError(`${path} is not JSON; ${instead}.`)
  }
}

function unfit(path: string, report: unknown, { instead, renew }: Wanted): UsageError {
  const tool = typeof report === 'object' && report !== null && 'tool' in report ? report.tool : null
  const version = typeof tool === 'object' && tool !== null && 'version' in tool ? tool.version : TOOL.version
  return new UsageError(
    version === TOOL.version
      ? `${path} is not a report of portrait-gate ${TOOL.version}; ${instead}.`
      : `${path} was written by version ${version} of portrait-gate and this is ${TOOL.version}; ${renew}.`,
  )
}
