import { spawn } from 'node:child_process'
import { mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { parse } from 'yaml'
import { filledIn } from './expressions.ts'
import { parseOutputs } from './file-commands.ts'
import { type LogCommand, logCommands } from './log-commands.ts'

/** What a job knows. */
export interface Job {
  readonly workspace: string
  readonly temp: string
  readonly eventName: string
  readonly event: object
  readonly sha: string
  /** Folder with the `node` that setup-node puts on the path. */
  readonly node: string
  /** What the machine sets besides. */
  readonly machine?: Readonly<Record<string, string>>
}

export interface Ran {
  readonly ok: boolean
  readonly log: string
  readonly commands: readonly LogCommand[]
  readonly outputs: Readonly<Record<string, string>>
  readonly summary: string
}

interface Step {
  readonly id?: string
  readonly uses?: string
  readonly with?: Readonly<Record<string, string | boolean>>
  readonly shell?: string
  readonly run?: string
  readonly env?: Readonly<Record<string, string>>
}
interface ActionFile {
  readonly inputs: Readonly<Record<string, { readonly default?: string }>>
  readonly outputs: Readonly<Record<string, { readonly value: string }>>
  readonly runs: { readonly using: string; readonly steps: readonly Step[] }
}

// A step with nothing from outside does the same in each run: the installation takes long and is done once a folder.
const done = new Set<string>()

/** Runs a composite action as a runner on Linux does. @throws Error for what no runner, or not this one, understands */
export async function runComposite(
  folder: string,
  given: Readonly<Record<string, string>>,
  job: Job,
): Promise<Ran> {
  const action: ActionFile = parse(await readFile(join(folder, 'action.yml'), 'utf8'))
  if (action.runs.using !== 'composite') throw new Error('The harness runs composite actions only.')
  for (const name of Object.keys(given))
    if (!Object.hasOwn(action.inputs, name)) throw new Error(`The action has no input ${name}.`)
  const defaults = Object.entries(action.inputs).map(([name, input]) => [name, input.default ?? ''])
  const inputs = { ...Object.fromEntries(defaults), ...given }
  const steps: Record<string, { outputs: Record<string, string> }> = {}
  let path = process.env.PATH ?? ''
  let log = ''
  let summary = ''
  let ok = true
  for (const step of action.runs.steps) {
    if (!ok) break
    if (step.uses !== undefined) {
      if (!/^actions\/setup-node@[0-9a-f]{40}$/.test(step.uses) || step.with?.['node-version'] !== '24')
        throw new Error(`The harness has no ${step.uses}.`)
      path = `${job.node}:${path}`
      continue
    }
    const once = step.env === undefined && step.id === undefined ? `${folder} ${step.run}` : null
    if (once !== null && done.has(once)) continue
    const env = Object.entries(step.env ?? {}).map(([name, text]) => [
      name,
      filledIn(text, { inputs, steps }),
    ])
    const ran = await runScript(step, { folder, job, env: { ...Object.fromEntries(env), PATH: path } })
    ok = ran.exit === 0
    if (ok && once !== null) done.add(once)
    log += ran.log
    summary += ran.summary
    if (step.id !== undefined) steps[step.id] = { outputs: ran.outputs }
  }
  const outputs = Object.entries(action.outputs).map(([name, { value }]) => [
    name,
    filledIn(value, { inputs, steps: { judge: { outputs: {} }, ...steps } }),
  ])
  return { ok, log, commands: logCommands(log), outputs: Object.fromEntries(outputs), summary }
}

async function runScript(
  step: Step,
  { folder, job, env }: { folder: string; job: Job; env: Readonly<Record<string, string>> },
): Promise<{ exit: number; log: string; outputs: Record<string, string>; summary: string }> {
  if (step.shell !== 'bash' || step.run === undefined)
    throw new Error('Each step of a composite action that runs a script says shell: bash.')
  if (step.run.includes('${{')) throw new Error('An expression stands in a script.')
  const files = await mkdtemp(join(job.temp, 'step-'))
  const file = (name: string) => join(files, name)
  for (const name of ['output', 'summary', 'env', 'path']) await writeFile(file(name), '')
  await writeFile(file('event.json'), JSON.stringify(job.event))
  await writeFile(file('script.sh'), step.run)
  const child = spawn('bash', ['--noprofile', '--norc', '-e', '-o', 'pipefail', file('script.sh')], {
    cwd: job.workspace,
    env: {
      ...machine(),
      ...job.machine,
      ...env,
      CI: 'true',
      GITHUB_ACTIONS: 'true',
      GITHUB_ACTION_PATH: folder,
      GITHUB_WORKSPACE: job.workspace,
      GITHUB_EVENT_NAME: job.eventName,
      GITHUB_EVENT_PATH: file('event.json'),
      GITHUB_REPOSITORY: 'osprey-lane/portraits',
      GITHUB_RUN_ID: '1',
      GITHUB_SHA: job.sha,
      GITHUB_OUTPUT: file('output'),
      GITHUB_STEP_SUMMARY: file('summary'),
      GITHUB_ENV: file('env'),
      GITHUB_PATH: file('path'),
      RUNNER_TEMP: job.temp,
    },
  })
  let log = ''
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', (text: string) => {
      log += text
    })
  const exit = await new Promise<number>((resolve, reject) => {
    child.on('error', reject)
    child.on('close', (code) => resolve(code ?? 1))
  })
  const outputs = parseOutputs(await readFile(file('output'), 'utf8'))
  return { exit, log, outputs, summary: await readFile(file('summary'), 'utf8') }
}

/** The environment of the machine, as a runner hands it on, without what the test's own process put there. */
function machine(): NodeJS.ProcessEnv {
  const own = /^(?:VITEST|NODE_OPTIONS$|NODE_ENV$|TEST$|DEV$|PROD$|MODE$|npm_|GIT_|GITHUB_)/
  return Object.fromEntries(Object.entries(process.env).filter(([name]) => !own.test(name)))
}
