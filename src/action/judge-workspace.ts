import { mkdir, readFile } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { check } from '../commands/check.ts'
import { type Command, EXIT, type Host, type Output } from '../commands/host.ts'
import { merge } from '../commands/merge.ts'
import { findFiles } from '../delivery/walk.ts'
import type { Report } from '../judge/report.ts'
import { annotations } from './annotations.ts'
import { fromWorkspace } from './from-workspace.ts'
import type { Inputs } from './inputs.ts'
import type { Log } from './log.ts'
import { partReports } from './merge-parts.ts'
import { refuseOutside } from './outside.ts'
import { makePlan, type Plan, type Surroundings } from './plan.ts'
import { NO_OUTPUTS, type Told } from './told.ts'
import { refused } from './trouble.ts'

interface Work extends Surroundings {
  readonly log: Log
  /** Worker threads to measure with. */
  readonly workers: number
}

/**
 * Judges what the workspace holds, or puts reports on parts of it together, by the commands `check` and `merge`.
 * @throws UsageError when the inputs or the checkout are not fit for it
 */
export async function judgeWorkspace(work: Work): Promise<Told> {
  const { runner, inputs, env, signal, log, workers } = work
  const { workspace } = runner
  await refuseOutside(workspace, [inputs.reportFolder, inputs.cacheFolder])
  const folder = resolve(workspace, inputs.reportFolder)
  await mkdir(folder, { recursive: true })
  const isMerge = inputs.merge.length > 0
  const plan = isMerge ? null : await makePlan(work)
  if (plan?.idle) {
    for (const note of plan.notes) log.write(`${note}\n`)
    return { annotations: [], notes: plan.notes, page: null, outputs: NO_OUTPUTS, exit: EXIT.fine }
  }
  const said: string[] = []
  const stderr: Output = {
    isTTY: false,
    write: (text) => {
      said.push(...text.split('\n').filter((line) => line !== ''))
      log.write(text)
    },
  }
  const host: Host = {
    cwd: plan?.cwd ?? workspace,
    stdout: log,
    stderr,
    env,
    workers,
    userCache: null,
    signal,
  }
  const reports = {
    json: join(folder, 'report.json'),
    markdown: join(folder, 'report.md'),
    html: inputs.shard === null ? join(folder, 'report.html') : null,
  }
  const outputs = Object.entries(reports).flatMap(([format, file]) =>
    file === null ? [] : [`--format=${format}`, `--output=${file}`],
  )
  const [command, args]: [Command, string[]] = plan
    ? [check, checkArgs(plan, inputs, workspace)]
    : [merge, await partReports(workspace, inputs.merge)]
  const exit = await command([...outputs, ...args], host)
  if (exit === EXIT.trouble) return refused({ said, plan, workspace, host })
  const report: Report = JSON.parse(await readFile(reports.json, 'utf8'))
  const root = await deliveryRoot(inputs, workspace, isMerge)
  const locate = (file: string) => fromWorkspace(workspace, join(root, file))
  const { verdict, totals } = report
  return {
    annotations: annotations(report, locate),
    notes: plan?.notes ?? [],
    page: await readFile(reports.markdown, 'utf8'),
    outputs: {
      verdict,
      checked: totals.files,
      failed: totals.fail,
      unsure: totals.unsure,
      'report-json': fromWorkspace(workspace, reports.json) ?? '',
      'report-html': reports.html === null ? '' : (fromWorkspace(workspace, reports.html) ?? ''),
    },
    exit,
  }
}

function checkArgs({ files, only }: Plan, inputs: Inputs, workspace: string): string[] {
  const { paths, strict, shard, cacheFolder } = inputs
  const cache = cacheFolder === null ? '--no-cache' : `--cache=${resolve(workspace, cacheFolder)}`
  const options = Object.entries({ ...files, shard, only }).flatMap(([name, value]) =>
    value === null ? [] : [`--${name}=${value}`],
  )
  return [
    ...options,
    cache,
    ...(strict ? ['--strict'] : []),
    '--',
    ...paths.map((path) => resolve(workspace, path)),
  ]
}

/** The folder that the names in the report refer to. */
async function deliveryRoot({ paths }: Inputs, workspace: string, isMerge: boolean): Promise<string> {
  const [first = '.', ...others] = paths
  // Where parts are merged the portraits themselves need not be there.
  if (isMerge && others.length === 0) return resolve(workspace, first)
  const full = paths.map((path) => resolve(workspace, path))
  return (await findFiles(full, workspace)).root
}
