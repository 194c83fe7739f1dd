import { mkdir, readdir, rm, writeFile } from 'node:fs/promises'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { drawCorpus, linkCorpus, nameOf } from './bench/corpus.ts'
import { benchPage, type Figures, type Scale } from './bench/page.ts'
import { fileSpec, fullSpec } from './bench/spec.ts'
import { middle, type Run, timed } from './bench/timed.ts'

/*
 * Speed and memory as ratios that are measured side by side in one run:
 * npm run bench -- [--files 200] [--rounds 3] [--scale 200,1000,5000] [--write]
 * Drawing the corpus takes minutes, once; --write puts the table into docs/benchmark.md.
 */
const option = (name: string, fallback: string): string => {
  const at = process.argv.indexOf(`--${name}`)
  return at < 0 ? fallback : (process.argv[at + 1] ?? fallback)
}
const FILES = Number(option('files', '200'))
const ROUNDS = Number(option('rounds', '3'))
const SCALES = option('scale', '200,1000,5000').split(',').map(Number)
const HOME = join('.cache', 'bench')
const CORPUS = join(HOME, 'drawn')
const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))
/** The packed form, which is what is installed. */
const CLI = join('bundle', 'cli.js')
const say = (text: string) => process.stderr.write(`${text}\n`)

const specs = { full: 'full.yaml', other: 'other.yaml', files: 'files.yaml' }
const node = (args: readonly string[], worst = 0) => timed(process.execPath, args, worst)
const decode = (folder: string, inFlight: number, threads: number, profile: 'heed' | 'ignore') =>
  node([here('bench/decode-all.js'), folder, String(inFlight), String(threads), profile])
/** Some of the drawn portraits miss a band: code 1 is a report all the same. */
const check = (folder: string, spec: keyof typeof specs, ...options: readonly string[]) =>
  node(
    [
      CLI,
      'check',
      folder,
      '--spec',
      join(HOME, specs[spec]),
      '--output',
      join(HOME, 'report.txt'),
      ...options,
    ],
    1,
  )

async function main(): Promise<void> {
  await drawCorpus(CORPUS, FILES, (index) => say(`Drawing portrait ${index + 1} of ${FILES}`))
  await writeFile(join(HOME, specs.full), fullSpec())
  await writeFile(join(HOME, specs.other), fullSpec(12.5))
  await writeFile(join(HOME, specs.files), fileSpec())
  const folders = await delivered()
  const first = folders.get(SCALES[0] as number) as string
  const limit = await bestDecoding(first)
  say('Decoding and checking in turns')
  const cold = await inTurns({
    decode: () => decode(first, limit.inFlight, limit.threads, 'heed'),
    decodePlain: () => decode(first, limit.inFlight, limit.threads, 'ignore'),
    check: () => check(first, 'full', '--no-cache'),
  })
  const scales: Scale[] = []
  for (const count of SCALES) {
    say(`Checking ${count} portraits with no cache`)
    const { seconds, peakMiB } = await check(folders.get(count) as string, 'full', '--no-cache')
    scales.push({ count, seconds, peakMiB })
  }
  const most = Math.max(...SCALES)
  const large = folders.get(most) as string
  const cache = join(HOME, 'cache')
  await rm(cache, { recursive: true, force: true })
  say('Filling the cache')
  // The index is kept in the user's own cache folder, as ever; the entries in one of the bench's own.
  await check(large, 'full', '--cache', cache)
  await check(large, 'full', '--cache', cache)
  say('Checking again in turns')
  const warm = await inTurns({
    warm: () => check(large, 'full', '--cache', cache),
    changed: () => check(large, 'other', '--cache', cache),
    rehash: () => check(large, 'full', '--cache', cache, '--rehash'),
    hash: () => node([here('bench/hash-all.js'), large]),
  })
  say('Reading the files alone in turns')
  const light = await inTurns({
    files: () => check(large, 'files', '--no-cache'),
    exiftool: () => timed('exiftool', ['-j', '-r', large]),
  })
  say('Starting up in turns')
  const one = join(first, nameOf(0))
  const start = await inTurns({
    node: () => node(['-e', '0']),
    version: () => node([CLI, '--version']),
    explain: () => node([CLI, 'explain', 'headroom']),
    one: () => check(one, 'full', '--no-cache'),
    oneWarm: () => check(one, 'full', '--cache', cache),
    oneFile: () => check(one, 'files', '--no-cache'),
    oneByExiftool: () => timed('exiftool', ['-j', one]),
  })
  const figures: Figures = { files: SCALES[0] as number, most, limit, cold, scales, warm, light, start }
  const page = benchPage(figures, availableParallelism())
  process.stdout.write(page)
  if (process.argv.includes('--write')) await writeFile(join('docs', 'benchmark.md'), page)
}

/** Deliveries of each size, links to the drawn portraits. */
async function delivered(): Promise<ReadonlyMap<number, string>> {
  const folders = new Map<number, string>()
  for (const count of SCALES) {
    const folder = join(HOME, String(count))
    folders.set(count, folder)
    await mkdir(folder, { recursive: true })
    // Links made anew would have new times.
    if ((await readdir(folder)).length !== count) await linkCorpus(CORPUS, FILES, folder, count)
  }
  return folders
}

async function bestDecoding(folder: string): Promise<Figures['limit']> {
  const tried: { inFlight: number; threads: number; seconds: number }[] = []
  for (const threads of [1, 2])
    for (const inFlight of [1, 2, 3, 4]) {
      say(`Decoding, ${inFlight} at once, ${threads} threads each`)
      tried.push({ inFlight, threads, seconds: (await decode(folder, inFlight, threads, 'heed')).seconds })
    }
  const [best] = tried.sort((a, b) => a.seconds - b.seconds)
  if (!best) throw new Error('Nothing was decoded.')
  return best
}

/** Each in turn, so that what else the machine does hits all alike; the middle of the rounds. */
async function inTurns<Name extends string>(
  runs: Record<Name, () => Promise<Run>>,
): Promise<Record<Name, Run>> {
  const names = Object.keys(runs) as Name[]
  const all = new Map<Name, Run[]>(names.map((name) => [name, []]))
  for (let round = 0; round < ROUNDS; round++)
    for (const name of names) all.get(name)?.push(await runs[name]())
  return Object.fromEntries(names.map((name) => [name, middle(all.get(name) ?? [])])) as Record<Name, Run>
}

await main()
