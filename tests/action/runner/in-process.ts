import { mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { parse } from 'yaml'
import { runAction } from '../../../src/action/run-action.ts'
import { filledIn } from './expressions.ts'
import { parseOutputs } from './file-commands.ts'
import { logCommands } from './log-commands.ts'
import type { Job, Ran } from './run-action.ts'

const action: {
  inputs: Record<string, { default?: string }>
  runs: { steps: { id?: string; env?: Record<string, string> }[] }
} = parse(await readFile('action.yml', 'utf8'))
const wiring = action.runs.steps.find(({ id }) => id === 'judge')?.env ?? {}
const defaults = Object.entries(action.inputs).map(([name, input]) => [name, input.default ?? ''])

export interface InProcess extends Omit<Job, 'node'> {
  readonly run?: string
  /** Beside what a runner sets. */
  readonly env?: Readonly<Record<string, string>>
  readonly signal?: AbortSignal
}

/** How a run of the step ended. */
export interface Ended extends Ran {
  readonly exit: number
}

/**
 * Runs the step that judges as a runner does, with the inputs wired as action.yml says, in this process: the steps that
 * set up Node and install take a hundred times as long.
 */
export async function judged(given: Readonly<Record<string, string>>, job: InProcess): Promise<Ended> {
  const inputs = { ...Object.fromEntries(defaults), ...given }
  const files = await mkdtemp(join(job.temp, 'step-'))
  const file = (name: string) => join(files, name)
  for (const name of ['output', 'summary']) await writeFile(file(name), '')
  await writeFile(file('event.json'), JSON.stringify(job.event))
  const wired = Object.entries(wiring).map(([name, text]) => [name, filledIn(text, { inputs })])
  let log = ''
  const exit = await runAction({
    cwd: () => job.workspace,
    env: {
      PATH: process.env.PATH,
      GIT_CONFIG_GLOBAL: '/dev/null',
      GIT_CONFIG_NOSYSTEM: '1',
      ...Object.fromEntries(wired),
      GITHUB_ACTIONS: 'true',
      GITHUB_WORKSPACE: job.workspace,
      GITHUB_EVENT_NAME: job.eventName,
      GITHUB_EVENT_PATH: file('event.json'),
      GITHUB_REPOSITORY: 'osprey-lane/portraits',
      GITHUB_RUN_ID: job.run ?? '1',
      GITHUB_SHA: job.sha,
      GITHUB_OUTPUT: file('output'),
      GITHUB_STEP_SUMMARY: file('summary'),
      RUNNER_TEMP: job.temp,
      ...job.env,
    },
    signal: job.signal ?? new AbortController().signal,
    workers: 0,
    print: (text) => {
      log += text
    },
  })
  const outputs = parseOutputs(await readFile(file('output'), 'utf8'))
  const summary = await readFile(file('summary'), 'utf8')
  return { exit, ok: exit === 0, log, commands: logCommands(log), outputs, summary }
}
