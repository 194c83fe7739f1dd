import { resolve } from 'node:path'
import { causeOf } from '../files/cause.ts'
import { readAtMost } from '../files/read-at-most.ts'
import type { Host } from './host.ts'
import { UsageError } from './usage-error.ts'

// A path of 4,096 bytes for each of ten thousand files fits.
const MOST_BYTES = 64 * 1024 * 1024

/**
 * Reads which portraits are to be judged one by one: a list of paths, one a line, or each ended by a zero byte as git
 * writes them.
 * @returns absolute paths
 * @throws UsageError when the list can't be read
 */
export async function readOnly(file: string, host: Host): Promise<ReadonlySet<string>> {
  let text: string
  try {
    const read = await readAtMost(resolve(host.cwd, file), MOST_BYTES)
    if ('refused' in read) {
      const why = read.refused === 'no-file' ? 'is not a regular file' : 'is over 64 MiB'
      throw new UsageError(`The --only list ${file} ${why}. Name a file with one path per line.`)
    }
    text = read.data.toString('utf8')
  } catch (error) {
    if (error instanceof UsageError) throw error
    const code = causeOf(error)
    throw new UsageError(`The --only list ${file} could not be read (${code}). Check its path.`)
  }
  const paths = text.includes('\0') ? text.split('\0') : text.split(/\r?\n/)
  return new Set(paths.filter((path) => path !== '').map((path) => resolve(host.cwd, path)))
}
