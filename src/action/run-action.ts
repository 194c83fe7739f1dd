import { appendFile } from 'node:fs/promises'
import type { Host } from '../commands/host.ts'
import { UsageError } from '../commands/outputs.ts'
import { readInputs } from './inputs.ts'
import { judgeWorkspace } from './judge-workspace.ts'
import { Log } from './log.ts'
import { outputLines } from './outputs.ts'
import { type Runner, readRunner } from './runner.ts'
import { summaryPage } from './summary.ts'
import type { Told } from './told.ts'
import { trouble } from './trouble.ts'

/** What the action uses of the world around it. */
export interface ActionHost extends Pick<Host, 'cwd' | 'env' | 'signal' | 'workers'> {
  /** Prints to the workflow's log, where lines can be commands. */
  readonly print: (text: string) => void
}

/** Runs the action: judges, then tells it in the log, in annotations, in the summary and in outputs. Gives the exit code. */
export async function runAction({ cwd, env, signal, workers, print }: ActionHost): Promise<number> {
  const log = new Log(print)
  let runner: Runner | null = null
  let told: Told
  try {
    runner = await readRunner(env, cwd)
    told = await judgeWorkspace({ runner, inputs: readInputs(env), env, signal, log, workers })
  } catch (error) {
    if (!(error instanceof UsageError)) throw error
    log.write(`${error.message}\n`)
    told = trouble([error.message])
  }
  log.end()
  for (const line of told.annotations) print(`${line}\n`)
  if (runner?.summaryFile) await appendFile(runner.summaryFile, summaryPage(told.notes, told.page))
  if (runner?.outputFile) await appendFile(runner.outputFile, outputLines(told.outputs))
  return told.exit
}
