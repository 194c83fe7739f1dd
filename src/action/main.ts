// The action's entry, as cli.ts is the command's: the only other user of process.
import { availableParallelism } from 'node:os'
import { EXIT } from '../checking/host.ts'
import { stopOnSignals } from '../commands/stop.ts'
import { fatalShortageOf } from '../files/shortage.ts'

// A log that nobody reads any more is no failure: the exit code still tells.
process.stdout.on('error', () => {})

const signal = stopOnSignals((name, listener) => process.once(name, listener))
void start()

async function start(): Promise<void> {
  try {
    // Loaded here, where it can be told when there are too few files or too little memory even for that.
    const { runAction } = await import('./run-action.ts')
    process.exitCode = await runAction({
      cwd: () => process.cwd(),
      env: process.env,
      signal,
      workers: availableParallelism(),
      print: (text) => process.stdout.write(text),
    })
  } catch (error) {
    const shortage = fatalShortageOf(error, () => process.report.getReport())
    if (shortage === null) throw error
    // Code 1 would say that a portrait fails.
    process.exitCode = EXIT.trouble
    process.stdout.write(`Nothing was judged: ${shortage}, and run again.\n`)
  }
}
