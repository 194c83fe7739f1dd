import { cp, mkdir, mkdtemp, readFile, realpath, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { isDeepStrictEqual } from 'node:util'
import { check } from '../../../../src/commands/check.ts'
import { emptyRepository, SERVES_ANY } from '../../../action/runner/git.ts'
import { importCommits, type Paths } from '../../../action/runner/import.ts'
import { judged } from '../../../action/runner/in-process.ts'
import { Repository } from '../../../action/runner/repository.ts'
import { recordingHost } from '../../../commands/host.ts'
import type { Case } from './cases.ts'
import { type Full, refusal } from './oracle.ts'
import { comparesWithBase, judgesByBase, type Setting } from './settings.ts'

export interface Verdict {
  /** Exit code of a full check of the change by the spec that is in force. */
  readonly full: number
  /** Why the change must not be let through; null when it may, since what fails failed before and was not touched. */
  readonly refusal: string | null
  /** Exit code of the action; of a divided run, that of the last job. */
  readonly exit: number
  readonly log: string
}

/** Judges a change by the action and by a full check that knows nothing of git. */
export async function runCase(one: Case, setting: Setting, temp: string): Promise<Verdict> {
  const home = await realpath(await mkdtemp(join(temp, 'case-')))
  try {
    return await runIn(home, one, setting)
  } finally {
    await rm(home, { recursive: true, force: true })
  }
}

async function runIn(home: string, { base, head }: Case, setting: Setting): Promise<Verdict> {
  const origin = join(home, 'origin')
  await emptyRepository(origin, SERVES_ANY)
  const [before = '', change = '', merge = ''] = await importCommits(origin, [
    { paths: base, parents: [] },
    { paths: head, parents: [1] },
    { paths: head, parents: [1, 2] },
  ])
  const isHead = setting.event === 'head'
  const workspace = join(home, 'work')
  const repository = Repository.at(origin)
  const depth = ['pull_request', 'pull_request_review'].includes(setting.event) ? '2' : '0'
  await repository.checkout(workspace, isHead ? change : merge, depth, {
    submodules: setting.submodules,
    ...(setting.filter !== null && { filter: setting.filter }),
  })
  const standard = await standardOf(home, workspace, setting, base)
  const full = await fullCheck(join(home, 'now.json'), workspace, setting, standard)
  const event = {
    before,
    merge_group: { base_sha: before },
    pull_request: { base: { sha: before }, head: { sha: change } },
  }
  const runner = join(home, 'temp')
  await mkdir(runner)
  const eventName = isHead ? 'pull_request' : setting.event
  const job = { workspace, temp: runner, eventName, event, sha: merge }
  const ran = setting.divided ? await divided(setting, job) : await judged(setting.inputs, job)
  const told = { full: full.exit, exit: ran.exit, log: ran.log }
  if (full.exit === 0 || ran.exit !== 0) return { ...told, refusal: null }
  if (!comparesWithBase(setting)) return { ...told, refusal: 'all portraits are judged' }
  if (STANDARD.some((path) => !isDeepStrictEqual(base.get(path), head.get(path))))
    return { ...told, refusal: 'what it is judged by has changed' }
  const other = join(home, 'base')
  await repository.checkout(other, before, '0', { submodules: setting.submodules })
  const was = await fullCheck(join(home, 'before.json'), other, setting, standard)
  return { ...told, refusal: await refusal(full, was) }
}

/** What portraits are judged by. */
const STANDARD = ['brand.yaml', 'waivers.yaml', 'staff.csv']

/** The spec in force, in a folder of its own where it is that of the base. */
async function standardOf(home: string, workspace: string, setting: Setting, base: Paths): Promise<string> {
  if (!judgesByBase(setting)) return join(workspace, 'brand.yaml')
  const folder = join(home, 'standard')
  await mkdir(folder)
  for (const name of STANDARD) {
    const node = base.get(name)
    if (node && 'file' in node) await writeFile(join(folder, name), node.file)
  }
  return join(folder, 'brand.yaml')
}

async function fullCheck(to: string, workspace: string, setting: Setting, spec: string): Promise<Full> {
  const paths = (setting.inputs.paths ?? '').split('\n')
  const exit = await check(
    ['--no-cache', '--spec', spec, '--output', to, '--', ...paths],
    recordingHost(workspace).host,
  )
  const text = await readFile(to, 'utf8').catch(() => null)
  const [only = '', ...others] = paths
  const root = others.length > 0 ? workspace : join(workspace, only)
  return { exit, report: text === null ? null : JSON.parse(text), root }
}

async function divided(setting: Setting, job: Parameters<typeof judged>[1]) {
  const folder = setting.inputs['report-folder'] || 'portrait-report'
  await mkdir(join(job.workspace, 'parts'))
  for (const number of [1, 2]) {
    await judged({ ...setting.inputs, shard: `${number}/2` }, job)
    const report = join(job.workspace, folder, 'report.json')
    const isThere = await readFile(report).catch(() => null)
    if (isThere !== null) await cp(report, join(job.workspace, 'parts', `${number}.json`))
  }
  return judged({ ...setting.inputs, merge: 'parts' }, job)
}
