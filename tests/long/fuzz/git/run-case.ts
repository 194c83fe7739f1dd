import { cp, mkdir, mkdtemp, readFile, realpath, rm, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { check } from '../../../../src/commands/check.ts'
import { judged } from '../../../action/runner/in-process.ts'
import { git, Repository } from '../../../action/runner/repository.ts'
import { recordingHost } from '../../../commands/host.ts'
import type { Case } from './cases.ts'
import { judgesByBase, type Setting } from './settings.ts'
import { importCommits, type Paths } from './tree.ts'

export interface Verdict {
  /** Exit code of a full check of the change by the spec that is in force. */
  readonly full: number
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
  await mkdir(origin)
  await git(origin, 'init', '-q', '--bare', '-b', 'main')
  for (const key of ['allowAnySHA1InWant', 'allowFilter'])
    await git(origin, 'config', `uploadpack.${key}`, 'true')
  await importCommits(origin, [
    { paths: base, parents: [] },
    { paths: head, parents: [1] },
    { paths: head, parents: [1, 2] },
  ])
  const [merge = '', before = '', change = ''] = (
    await git(origin, 'rev-parse', 'main', 'main^1', 'main^2')
  ).split('\n')
  const isHead = setting.event === 'head'
  const workspace = join(home, 'work')
  const repository = Repository.at(origin)
  const depth = ['pull_request', 'pull_request_review'].includes(setting.event) ? '2' : '0'
  await repository.checkout(workspace, isHead ? change : merge, depth, {
    submodules: setting.submodules,
    ...(setting.filter !== null && { filter: setting.filter }),
  })
  const full = await fullCheck(home, workspace, setting, base)
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
  return { full, exit: ran.exit, log: ran.log }
}

async function fullCheck(home: string, workspace: string, setting: Setting, base: Paths): Promise<number> {
  let spec = join(workspace, 'brand.yaml')
  if (judgesByBase(setting)) {
    const folder = join(home, 'standard')
    for (const name of ['brand.yaml', 'waivers.yaml']) {
      const node = base.get(name)
      await mkdir(dirname(join(folder, name)), { recursive: true })
      if (node && 'file' in node) await writeFile(join(folder, name), node.file)
    }
    spec = join(folder, 'brand.yaml')
  }
  const paths = (setting.inputs.paths ?? '').split('\n')
  return check(['--no-cache', '--spec', spec, '--', ...paths], recordingHost(workspace).host)
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
