import { appendFile } from 'node:fs/promises'
import { EXIT, type Host } from '../checking/host.ts'
import { UsageError } from '../checking/usage-error.ts'
import { stoppedBy } from '../commands/stop.ts'
import { shortageOf } from '../files/shortage.ts'
import { capitalized } from '../text/capitalized.ts'
import { readInputs } from './job/inputs.ts'
import { type Runner, readRunner } from './job/runner.ts'
import { judgeWorkspace } from './judge-workspace.ts'
import { Log } from './telling/log.ts'
import { outputLines } from './telling/outputs.ts'
import { summaryPage } from './telling/summary.ts'
import type { Told } from './telling/told.ts'
import { trouble } from './telling/trouble.ts'

/** What the action uses of the world around it. */
export interface ActionHost extends Pick<Host, 'env' | 'signal' | 'workers'> {
  /** The folder it runs in; throws when that is no longer there. */
  readonly cwd: () => string
  /** Prints to the workflow's log, where lines can be commands. */
  readonly print: (text: string) => void
}

/**
 * Runs the action: judges, then tells it in the log, in annotations, in the summary and in outputs. Gives the exit code:
 * whatever goes wrong, later steps read that nothing was judged.
 */
export async function runAction({ cwd, env, signal, workers, print }: ActionHost): Promise<number> {
  const log = new Log(print)
  let runner: Runner | null = null
  let told: Told
  try {
    runner = await readRunner(env, cwd)
    told = await judgeWorkspace({ runner, inputs: readInputs(env), env, signal, log, workers })
  } catch (error) {
    told = untold(error, signal, log)
  }
  log.end()
  for (const line of told.annotations) print(`${line}\n`)
  try {
    if (runner?.summaryFile) await appendFile(runner.summaryFile, summaryPage(told.notes, told.page))
    if (runner?.outputFile) await appendFile(runner.outputFile, outputLines(told.outputs))
  } catch (error) {
    log.write(
      `The runner's own files can't be written to (${messageOf(error)}), so the result was not handed on.\n`,
    )
    return EXIT.trouble
  }
  return told.exit
}

const FAULT =
  'Nothing was judged: an error within portrait-gate, not in the delivery. Please report it with these lines:'

function untold(error: unknown, signal: AbortSignal, log: Log): Told {
  const stopped = stoppedBy(signal)
  const shortage = shortageOf(error)
  const isOurs =
    stopped === null && shortage === null && !(error instanceof UsageError) && !isSystemError(error)
  if (isOurs) log.write(`${FAULT}\n${error instanceof Error ? error.stack : error}\n`)
  const missing = shortage && `${capitalized(shortage)}, and run again.`
  const sentence = stopped?.message ?? missing ?? (isOurs ? `${FAULT} ${messageOf(error)}` : messageOf(error))
  if (!isOurs) log.write(`${sentence}\n`)
  return trouble([sentence], { exit: stopped?.exit ?? EXIT.trouble })
}

/** Such as a full disk: its words name the file and what was tried (node:errors, system errors). */
function isSystemError(error: unknown): boolean {
  return error instanceof Error && 'syscall' in error && 'code' in error
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
