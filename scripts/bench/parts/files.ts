import { join } from 'node:path'
import { nameOf } from '../corpus.ts'
import { cpuRatio, each, ms, ratio, s } from '../figures.ts'
import type { Ground } from '../ground.ts'
import { inTurns, type Run, timed } from '../timed.ts'

// 2 GB: files of their own, since links are of one size and would all be hashed to be compared.
const COUNT = 2500

/** Names, headers and metadata, no picture decoded, beside a reader of metadata. */
export async function files({ rounds, ownFiles, check }: Ground): Promise<string> {
  const folder = await ownFiles(COUNT)
  const one = join(folder, nameOf(0))
  const { ours, exiftool, ourOne, itsOne } = await inTurns(rounds, {
    ours: () => check(folder, 'files', '--no-cache'),
    exiftool: () => timed('exiftool', ['-j', '-r', folder]),
    ourOne: () => check(one, 'files', '--no-cache'),
    itsOne: () => timed('exiftool', ['-j', one]),
  })
  const more = (run: Run, alone: Run) => (run.seconds - alone.seconds) / (COUNT - 1)
  const [ourMore, itsMore] = [more(ours, ourOne), more(exiftool, itsOne)]
  return `## Files alone: ${COUNT} files, no picture decoded (\`intact: false\`)

| what | s | a file | each file more | beside | by processor time |
| --- | --: | --: | --: | --- | --- |
| check of names, sizes, format, color space and metadata | ${s(ours)} | ${each(ours, COUNT)} | ${ms(ourMore)} | **${ratio(ours, exiftool)} of the metadata reader**, each file more ${(ourMore / itsMore).toFixed(2)} | ${cpuRatio(ours, exiftool)} |
| ExifTool (Debian's libimage-exiftool-perl), \`exiftool -j -r\` | ${s(exiftool)} | ${each(exiftool, COUNT)} | ${ms(itsMore)} | | |

A file more: beyond what one file alone takes, which is mostly the start. ExifTool runs in one thread, the check in one for each core.
`
}
