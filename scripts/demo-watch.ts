import { spawn } from 'node:child_process'
import { copyFile, mkdir, rm } from 'node:fs/promises'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import type { Host } from '../src/checking/host.ts'
import { run } from '../src/commands/run.ts'
import { THIS_PROCESS } from '../src/files/this-process.ts'

/**
 * A small session to play: runs `watch` on a folder into which drawn frames come, of four sitters of the example, with some
 * faults and with a backdrop that gets darker in the middle. Open the page, tap who sits, and let them pick.
 */
const EXAMPLE = 'examples/osprey-lane'
const FOLDER = join('.cache', 'demo-watch')

await rm(FOLDER, { recursive: true, force: true })
await mkdir(join(FOLDER, 'frames'), { recursive: true })
// Picks are written to a copy of the roster.
for (const file of ['brand.yaml', 'staff.csv', 'waivers.yaml'])
  await copyFile(join(EXAMPLE, file), join(FOLDER, file))

const stop = new AbortController()
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => stop.abort())
const out = process.stdout
const output = { write: (text: string) => out.write(text), columns: out.columns, isTTY: out.isTTY === true }
const host: Host = {
  cwd: process.cwd(),
  stdout: output,
  stderr: output,
  env: process.env,
  workers: availableParallelism(),
  userCache: null,
  processes: THIS_PROCESS,
  signal: stop.signal,
}
const frames = join(FOLDER, 'frames')
const args = ['watch', frames, '--spec', join(FOLDER, 'brand.yaml'), ...process.argv.slice(2)]
out.write(`$ portrait-gate ${args.join(' ')}\n\n`)
const feed = spawn(
  process.execPath,
  [fileURLToPath(new URL('./demo-watch/feed.js', import.meta.url)), frames],
  {
    stdio: 'inherit',
  },
)
process.exitCode = await run(args, host)
feed.kill()
