// The action's entry, as cli.ts is the command's: the only other user of process.
import { availableParallelism } from 'node:os'
import { stopOnSignals } from '../commands/stop.ts'
import { runAction } from './run-action.ts'

// A log that nobody reads any more is no failure: the exit code still tells.
process.stdout.on('error', () => {})

process.exitCode = await runAction({
  cwd: () => process.cwd(),
  env: process.env,
  signal: stopOnSignals((name, listener) => process.once(name, listener)),
  workers: availableParallelism(),
  print: (text) => process.stdout.write(text),
})
