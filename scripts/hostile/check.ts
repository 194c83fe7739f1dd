import process from 'node:process'
import { run } from '../../src/commands/run.ts'
import { THIS_PROCESS } from '../../src/files/this-process.ts'

/** A command line by two workers, whatever the machine has. */
process.exitCode = await run(process.argv.slice(2), {
  cwd: process.cwd(),
  stdout: { write: (text) => process.stdout.write(text), columns: undefined, isTTY: false },
  stderr: { write: (text) => process.stderr.write(text), columns: undefined, isTTY: false },
  env: {},
  workers: 2,
  userCache: null,
  processes: THIS_PROCESS,
  signal: new AbortController().signal,
})
