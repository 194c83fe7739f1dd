import { availableParallelism, platform } from 'node:os'
import { homeFolder, userCacheFolder } from './cache/folder.ts'
import { EXIT, type Host, type Output } from './checking/host.ts'
import { run } from './commands/run.ts'
import { stopOnSignals, stoppedBy } from './commands/stop.ts'
import { fatalShortageOf } from './files/shortage.ts'
import { THIS_PROCESS } from './files/this-process.ts'
import { forWorkflowOutput } from './report/safe.ts'
import { openPage } from './server/open-page.ts'

const FAULT =
  'Nothing was judged: an error within portrait-gate, not in the delivery. Please report it with these lines:'

// On a workflow's runner, standard output and standard error are read for commands.
const safe = process.env.GITHUB_ACTIONS === 'true' ? forWorkflowOutput : (text: string) => text
const signal = stopOnSignals((name, listener) => process.once(name, listener))
let isLost = false
// A reader that has seen enough (`| head`) closes the pipe; that is no failure of ours, and the exit code still tells.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') return
  stderr.write(
    `The report could not be printed (${error.message}). Free some space, or write it elsewhere.\n`,
  )
  isLost = true
  process.exitCode = EXIT.trouble
})
// Where nothing can be told, there is nobody to tell so.
process.stderr.on('error', () => {})

const stdout = output(process.stdout)
const stderr = output(process.stderr)
const host: Omit<Host, 'cwd'> = {
  stdout,
  stderr,
  env: process.env,
  workers: availableParallelism(),
  userCache: userCacheFolder(process.env, platform(), homeFolder()),
  processes: THIS_PROCESS,
  openPage: (url) => openPage(url, platform()),
  signal,
}

void start()

async function start(): Promise<void> {
  try {
    const cwd = workingFolder()
    const code = cwd === null ? EXIT.trouble : await run(process.argv.slice(2), { ...host, cwd })
    process.exitCode = isLost ? EXIT.trouble : code
  } catch (error) {
    const stopped = stoppedBy(signal)
    // Code 1 would say that a portrait fails.
    process.exitCode = stopped?.exit ?? EXIT.trouble
    const shortage = fatalShortageOf(error, () => process.report.getReport())
    if (stopped) stderr.write('Stopped; no report was written.\n')
    else if (shortage !== null) stderr.write(`Nothing was judged: ${shortage}, and run again.\n`)
    else stderr.write(`${FAULT}\n${error instanceof Error ? error.stack : error}\n`)
  }
}

function workingFolder(): string | null {
  try {
    return process.cwd()
  } catch {
    stderr.write('The folder that this runs in is no longer there. Change to another one and run again.\n')
    return null
  }
}

function output(stream: NodeJS.WriteStream): Output {
  // Terminals without a size, as in some containers, tell a width of 0.
  const columns = stream.columns || undefined
  return { write: (text) => stream.write(safe(text)), columns, isTTY: stream.isTTY === true }
}
