// The action's entry, as cli.ts is the command's: the only other user of process.
import { availableParallelism } from 'node:os'
import { runAction } from './run-action.ts'

const stop = new AbortController()
process.once('SIGINT', () => stop.abort())
process.once('SIGTERM', () => stop.abort())

process.exitCode = await runAction({
  cwd: process.cwd(),
  env: process.env,
  signal: stop.signal,
  workers: availableParallelism(),
  print: (text) => process.stdout.write(text),
})
