import { resolve } from 'node:path'
import { readAtMost } from '../files/read-at-most.ts'
import { requiredGroups } from '../judge/needs.ts'
import { planDelivery, runs } from '../judge/plan.ts'
import { knownBy, type Standard } from '../judge/standard.ts'
import type { Source } from '../measure/file/read-file.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import { type Means, measureAll } from '../pool/measure-all.ts'
import { ALL_RULES, DELIVERY_RULES } from '../rules/delivery-index.ts'
import type { Host } from './host.ts'
import { UsageError } from './outputs.ts'

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
      const why = read.refused === 'no-file' ? 'is not a regular file' : 'has more than 64 MiB'
      throw new UsageError(`The list of --only, ${file}, ${why}. Name a file with one path a line.`)
    }
    text = read.data.toString('utf8')
  } catch (error) {
    if (error instanceof UsageError) throw error
    const code = error instanceof Error && 'code' in error ? error.code : error
    throw new UsageError(`The list of --only, ${file}, could not be read (${code}). Check its path.`)
  }
  const paths = text.includes('\0') ? text.split('\0') : text.split(/\r?\n/)
  return new Set(paths.filter((path) => path !== '').map((path) => resolve(host.cwd, path)))
}

/**
 * Measures the files that are asked for in full, and the others as far as the rules over the whole delivery need it:
 * not at all when there are none. The results stand in the order of the files.
 */
export async function measureOnly(
  files: readonly Source[],
  only: ReadonlySet<string>,
  standard: Standard,
  means: Means,
): Promise<Measurements[]> {
  const { spec } = standard
  const known = knownBy(standard)
  const asked = files.filter(({ path }) => only.has(path))
  const others = planDelivery(known, spec, DELIVERY_RULES).some(runs)
    ? files.filter(({ path }) => !only.has(path))
    : []
  const total = asked.length + others.length
  const measured = [
    ...(await measureAll(asked, requiredGroups(spec, ALL_RULES, known), {
      ...means,
      progress: ({ done }) => means.progress({ done, total }),
    })),
    ...(await measureAll(others, requiredGroups(spec, DELIVERY_RULES, known), {
      ...means,
      progress: ({ done }) => means.progress({ done: asked.length + done, total }),
    })),
  ]
  const byFile = new Map(measured.map((one) => [one.file, one]))
  return files.flatMap(({ file }) => byFile.get(file) ?? [])
}
