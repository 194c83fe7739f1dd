import { execFile } from 'node:child_process'
import { cp, mkdir, mkdtemp, readdir, readFile, stat } from 'node:fs/promises'
import { basename, join } from 'node:path'
import { promisify } from 'node:util'
import { parse } from 'yaml'
import { type Contexts, filledIn, holds } from './expressions.ts'
import type { Repository } from './repository.ts'
import { type Job, type Ran, runComposite } from './run-action.ts'

interface Step {
  readonly id?: string
  readonly uses?: string
  readonly run?: string
  readonly env?: Readonly<Record<string, string>>
  readonly if?: string
  readonly with?: Readonly<Record<string, string | number | boolean>>
  readonly 'continue-on-error'?: boolean
}
interface WorkflowJob {
  readonly needs?: string
  readonly strategy?: { readonly matrix: Readonly<Record<string, readonly (string | number)[]>> }
  readonly steps: readonly Step[]
}

export interface Start extends Pick<Job, 'temp' | 'eventName' | 'event' | 'sha' | 'node' | 'machine'> {
  readonly repository: Repository
  /** Folder of the action. */
  readonly action: string
  readonly ref: string
  /** Folder with programs that the machine has. */
  readonly tools?: string
  /** Folders that cache steps saved, by key, from one run to the next. */
  readonly caches?: Map<string, string>
}

export interface WorkflowRun {
  readonly ok: boolean
  /** Of our action, in the order in which it ran. */
  readonly ran: readonly Ran[]
  /** Folder with a folder for each artifact. */
  readonly artifacts: string
}

const REFERENCE = /^(.+)@([0-9a-f]{40}|v\d+\.\d+\.\d+)$/

/** Runs all jobs of a workflow one after the other. @throws Error for what the harness does not know */
export async function runWorkflow(file: string, start: Start): Promise<WorkflowRun> {
  const workflow: { jobs: Record<string, WorkflowJob> } = parse(await readFile(file, 'utf8'))
  const artifacts = await mkdtemp(join(start.temp, 'artifacts-'))
  const ran: Ran[] = []
  const failed = new Set<string>()
  for (const [name, job] of Object.entries(workflow.jobs)) {
    if (job.needs !== undefined && failed.has(job.needs)) {
      failed.add(name)
      continue
    }
    for (const matrix of combinations(job))
      if (!(await runJob(job, { ...start, caches: start.caches ?? new Map(), matrix, artifacts, ran })))
        failed.add(name)
  }
  return { ok: failed.size === 0, ran, artifacts }
}

interface JobStart extends Start {
  readonly caches: Map<string, string>
  readonly matrix: Contexts
  readonly artifacts: string
  readonly ran: Ran[]
}

function combinations({ strategy }: WorkflowJob): Contexts[] {
  const [entry, ...others] = Object.entries(strategy?.matrix ?? {})
  if (others.length > 0) throw new Error('The harness knows a matrix of one dimension.')
  return entry ? entry[1].map((value) => ({ [entry[0]]: value })) : [{}]
}

async function runJob(job: WorkflowJob, start: JobStart): Promise<boolean> {
  const workspace = await mkdtemp(join(start.temp, 'work space-'))
  const temp = await mkdtemp(join(start.temp, 'temp-'))
  const steps: Record<string, { outputs: Readonly<Record<string, string>> }> = {}
  for (const { id } of job.steps) if (id !== undefined) steps[id] = { outputs: {} }
  let ok = true
  for (const step of job.steps) {
    const github = {
      ref: start.ref,
      ref_name: basename(start.ref),
      sha: start.sha,
      token: 'a token of the test',
    }
    const contexts = { github, matrix: start.matrix, steps, runner: { temp } }
    if (step.if === undefined ? !ok : !holds(step.if, contexts)) continue
    if (step.run !== undefined) {
      await script(step.run, filled(step.env ?? {}, contexts), { ...start, workspace })
      continue
    }
    const ran = await runStep(step, filled(step.with ?? {}, contexts), { ...start, workspace, temp })
    if (!ran) continue
    start.ran.push(ran)
    if (step.id !== undefined) steps[step.id] = { outputs: ran.outputs }
    ok &&= ran.ok || step['continue-on-error'] === true
  }
  for (const { uses, with: given = {} } of job.steps)
    if (REFERENCE.exec(uses ?? '')?.[1] === 'actions/cache')
      await save(filled(given, { github: { sha: start.sha }, runner: { temp } }), start)
  return ok
}

function filled(given: NonNullable<Step['with']>, contexts: Contexts): Record<string, string> {
  return Object.fromEntries(
    Object.entries(given).map(([key, value]) => [key, filledIn(String(value), contexts)]),
  )
}

/** By the key itself, else by the first that begins as one of the others says (github.com/actions/cache, README). */
async function restore(given: Readonly<Record<string, string>>, { caches }: JobStart): Promise<void> {
  const wanted = [given.key ?? '', ...(given['restore-keys'] ?? '').split('\n')]
  const hit = wanted.flatMap((key) => [...caches.keys()].filter((one) => one.startsWith(key)))[0]
  if (hit !== undefined) await cp(caches.get(hit) ?? '', given.path ?? '', { recursive: true })
}

/** After the job, unless the key is taken. */
async function save(given: Readonly<Record<string, string>>, { caches, temp }: JobStart): Promise<void> {
  if (caches.has(given.key ?? '')) return
  const kept = await mkdtemp(join(temp, 'cache-'))
  await cp(given.path ?? '', kept, { recursive: true })
  caches.set(given.key ?? '', kept)
}

async function runStep(
  step: Step,
  given: Readonly<Record<string, string>>,
  start: JobStart & { readonly workspace: string },
): Promise<Ran | null> {
  const [, uses] = REFERENCE.exec(step.uses ?? '') ?? []
  const { workspace, artifacts } = start
  switch (uses) {
    case 'actions/checkout':
      if (given['persist-credentials'] !== 'false')
        throw new Error('The token would be left in the checkout.')
      await start.repository.checkout(workspace, start.sha, given['fetch-depth'] ?? '1')
      return null
    case 'actions/cache':
    case 'actions/cache/restore':
      await restore(given, start)
      return null
    case 'actions/upload-artifact':
      await keep(join(workspace, given.path ?? ''), join(artifacts, given.name ?? ''))
      return null
    case 'actions/download-artifact': {
      const prefix = (given.pattern ?? '').replace(/\*$/, '')
      for (const name of (await readdir(artifacts)).filter((one) => one.startsWith(prefix)))
        await cp(join(artifacts, name), join(workspace, given.path ?? '', name), { recursive: true })
      return null
    }
    case 'OWNER/portrait-gate':
      return runComposite(start.action, given, start)
    default:
      throw new Error(`The harness has no ${step.uses}.`)
  }
}

/** As a runner does with `shell: bash` (GitHub Docs, "Workflow syntax", jobs.<job_id>.steps[*].shell). */
async function script(
  text: string,
  env: Readonly<Record<string, string>>,
  { workspace, tools = '' }: JobStart & { readonly workspace: string },
): Promise<void> {
  if (text.includes('${{')) throw new Error('An expression stands in a script.')
  const own = { PATH: `${tools}:${process.env.PATH}`, GITHUB_REPOSITORY: 'osprey-lane/portraits' }
  await promisify(execFile)('bash', ['--noprofile', '--norc', '-eo', 'pipefail', '-c', text], {
    cwd: workspace,
    env: { ...own, ...env },
  })
}

/** One file lies at the top of its artifact, as do the contents of a folder. */
async function keep(path: string, artifact: string): Promise<void> {
  await mkdir(artifact)
  const isFolder = (await stat(path)).isDirectory()
  await cp(path, isFolder ? artifact : join(artifact, basename(path)), { recursive: true })
}
