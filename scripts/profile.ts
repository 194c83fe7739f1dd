import { readdir, writeFile } from 'node:fs/promises'
import { Session } from 'node:inspector/promises'
import { join, resolve } from 'node:path'
import process from 'node:process'
import { recycling } from '../src/kernels/recycling.ts'
import { measure } from '../src/measure/measure.ts'
import { GROUPS } from '../src/measure/schema/measurement-groups.ts'
import { compileWhatRuns } from '../src/pool/compiling.ts'
import { collectSeldom } from '../src/pool/garbage.ts'
import { drawCorpus } from './bench/corpus.ts'
import { partOf } from './profile/parts.ts'
import { type Part, profilePage } from './profile/profile-page.ts'

/*
 * Where the time of measuring a portrait goes, by part of the code:
 * npm run profile -- [--files 24] [--rounds 3] [--write]
 * Measures in this thread, one portrait after the other, and samples what runs; --write puts the table into docs/profile.md.
 */
const option = (name: string, fallback: string): string => {
  const at = process.argv.indexOf(`--${name}`)
  return at < 0 ? fallback : (process.argv[at + 1] ?? fallback)
}
const FILES = Number(option('files', '24'))
const ROUNDS = Number(option('rounds', '3'))
const CORPUS = join('.cache', 'bench', 'drawn')
const SAMPLE_MICROSECONDS = 200

await drawCorpus(CORPUS, FILES, (index) => process.stderr.write(`Drawing portrait ${index + 1}\n`))
const files = (await readdir(CORPUS)).sort().slice(0, FILES)
const sources = files.map((file) => ({ path: resolve(CORPUS, file), file }))

const measureAll = async () => {
  for (const source of sources) await recycling(() => measure(source, GROUPS))
}

// As a worker does.
compileWhatRuns()
collectSeldom()
// The first round loads the models and lets the compiler settle.
await measureAll()
const session = new Session()
session.connect()
await session.post('Profiler.enable')
await session.post('Profiler.setSamplingInterval', { interval: SAMPLE_MICROSECONDS })
await session.post('Profiler.start')
const before = process.cpuUsage()
for (let round = 0; round < ROUNDS; round++) await measureAll()
const cpu = process.cpuUsage(before)
const { profile } = await session.post('Profiler.stop')
session.disconnect()

const portraits = ROUNDS * sources.length
const parents = new Map<number, number>()
for (const { id, children = [] } of profile.nodes) for (const child of children) parents.set(child, id)
const frames = new Map(profile.nodes.map(({ id, callFrame }) => [id, callFrame]))
const parts = new Map<Part, number>()
for (const [i, id] of (profile.samples ?? []).entries()) {
  // The code of a library counts for the part of ours that called it.
  const stack = []
  for (let at: number | undefined = id; at !== undefined; at = parents.get(at)) {
    const frame = frames.get(at)
    if (frame) stack.push(frame)
  }
  const part = partOf(stack)
  parts.set(part, (parts.get(part) ?? 0) + (profile.timeDeltas?.[i] ?? 0) / 1000 / portraits)
}
const page = profilePage(parts, (cpu.user + cpu.system) / 1000 / portraits, sources.length)
process.stdout.write(page)
if (process.argv.includes('--write')) await writeFile(join('docs', 'profile.md'), page)
