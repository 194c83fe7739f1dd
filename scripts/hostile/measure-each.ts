import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import process from 'node:process'
import { measure } from '../../src/measure/measure.ts'
import { GROUPS } from '../../src/measure/schema/measurements.ts'

/** What each file of a folder takes, one after the other: a line of JSON for each. */
export interface Cost {
  readonly file: string
  /** Processor time of all threads, in seconds. */
  readonly seconds: number
  /** "whole", or the kind of its fault. */
  readonly fate: string
}

const [folder = ''] = process.argv.slice(2)
for (const file of (await readdir(folder)).sort()) {
  const before = process.cpuUsage()
  const { fault } = await measure({ path: join(folder, file), file }, GROUPS)
  const { user, system } = process.cpuUsage(before)
  const cost: Cost = { file, seconds: (user + system) / 1e6, fate: fault?.kind ?? 'whole' }
  process.stdout.write(`${JSON.stringify(cost)}\n`)
}
