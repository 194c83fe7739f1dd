#!/usr/bin/env node
import { availableParallelism, homedir, platform } from 'node:os'
import { userCacheFolder } from './cache/folder.ts'
import type { Host, Output } from './commands/host.ts'
import { run } from './commands/run.ts'

// By the shells' convention: 128 and the number of the signal.
const INTERRUPTED = 130

const stop = new AbortController()
process.once('SIGINT', () => stop.abort())
process.once('SIGTERM', () => stop.abort())
// A reader that has seen enough (`| head`) closes the pipe; that is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error
  process.exit()
})

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
  process.exitCode = await run(process.argv.slice(2), host)
} catch (error) {
  if (!stop.signal.aborted) throw error
  host.stderr.write('Stopped; no report was written.\n')
  process.exitCode = INTERRUPTED
}

function output(stream: NodeJS.WriteStream): Output {
  return { write: (text) => stream.write(text), columns: stream.columns, isTTY: stream.isTTY === true }
}
