#!/usr/bin/env node
import { availableParallelism, homedir, platform } from 'node:os'
import { userCacheFolder } from './cache/folder.ts'
import { EXIT, type Host, type Output } from './commands/host.ts'
import { run } from './commands/run.ts'

// By the shells' convention: 128 and the number of the signal.
const INTERRUPTED = 130
const FAULT =
  'Nothing was judged: an error within portrait-gate, not in the delivery. Please report it with these lines:'

const stop = new AbortController()
process.once('SIGINT', () => stop.abort())
process.once('SIGTERM', () => stop.abort())
let isLost = false
// A reader that has seen enough (`| head`) closes the pipe; that is no failure of ours, and the exit code still tells.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') return
  host.stderr.write(
    `The report could not be printed (${error.message}). Free some space, or write it elsewhere.\n`,
  )
  isLost = true
  process.exitCode = EXIT.trouble
})
// Where nothing can be told, there is nobody to tell so.
process.stderr.on('error', () => {})

const host: Host = {
  cwd: process.cwd(),
  stdout: output(process.stdout),
  stderr: output(process.stderr),
  env: process.env,
  workers: availableParallelism(),
  userCache: userCacheFolder(process.env, platform(), homedir()),
  signal: stop.signal,
}

try {
  const code = await run(process.argv.slice(2), host)
  process.exitCode = isLost ? EXIT.trouble : code
} catch (error) {
  if (stop.signal.aborted) {
    host.stderr.write('Stopped; no report was written.\n')
    process.exitCode = INTERRUPTED
  } else {
    // Code 1 would say that a portrait fails.
    host.stderr.write(`${FAULT}\n${error instanceof Error ? error.stack : error}\n`)
    process.exitCode = EXIT.trouble
  }
}

function output(stream: NodeJS.WriteStream): Output {
  return { write: (text) => stream.write(text), columns: stream.columns, isTTY: stream.isTTY === true }
}
