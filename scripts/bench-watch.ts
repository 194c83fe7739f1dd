import { spawn } from 'node:child_process'
import { mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { availableParallelism, cpus } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { setTimeout } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'
import { drawFrame, framesOf } from '../examples/osprey-lane/frames.ts'
import { quantile } from '../src/numbers/quantile.ts'

/*
 * How long a frame of 24 megapixels takes from being whole in the folder to being told to the page, and what memory the command takes
 * (Linux): npm run bench:watch -- [--minutes 10] [--every 2]
 * The page's own drawing comes on top, some hundredths of a second.
 */
const option = (name: string, fallback: number): number => {
  const at = process.argv.indexOf(`--${name}`)
  return at < 0 ? fallback : Number(process.argv[at + 1])
}
const SECONDS = 60 * option('minutes', 10)
const EVERY = option('every', 2)
const HOME = join('.cache', 'bench-watch')
const [WIDTH, HEIGHT] = [4000, 6000]
const say = (text: string) => process.stdout.write(`${text}\n`)

await rm(HOME, { recursive: true, force: true })
await mkdir(join(HOME, 'shoot'), { recursive: true })
const frames = await pictures()
const example = join('examples', 'osprey-lane')
await writeFile(join(HOME, 'brand.yaml'), await readFile(join(example, 'brand.yaml')))
for (const file of ['staff.csv', 'waivers.yaml'])
  await writeFile(join(HOME, file), await readFile(join(example, file)))

const cli = fileURLToPath(new URL('../src/start.cjs', import.meta.url))
const args = [cli, 'watch', join(HOME, 'shoot'), '--spec', join(HOME, 'brand.yaml')]
const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] })
const url = await new Promise<string>((resolve) => {
  let printed = ''
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    printed += text
    const found = /^The page for the set: (\S+)/m.exec(printed)?.[1]
    if (found !== undefined) resolve(found)
  })
})

const told = new Map<string, number>()
const stop = new AbortController()
const listening = listen(`${url}events`).catch(() => {})
const whole = new Map<string, number>()
const memory: number[] = []
// The first ones wait for the models to be loaded.
const WARMING = 3
for (let n = 0; n < WARMING + SECONDS / EVERY; n++) {
  const began = performance.now()
  const name = `OSL_${String(n + 1).padStart(4, '0')}.JPG`
  const path = join(HOME, 'shoot', name)
  await writeFile(`${path}.part`, commented(frames[n % frames.length] ?? Buffer.alloc(0), name))
  await rename(`${path}.part`, path)
  whole.set(name, performance.now())
  memory.push(await residentMiB())
  await setTimeout(Math.max(0, 1000 * EVERY - (performance.now() - began)))
}
for (let n = 0; n < 60 && told.size < whole.size; n++) await setTimeout(500)
stop.abort()
child.kill()
await listening

const taken = [...whole].slice(WARMING).flatMap(([name, at]) => {
  const when = told.get(name)
  return when === undefined ? [] : [(when - at) / 1000]
})
const missed = whole.size - told.size
const sorted = Float32Array.from(taken)
const third = Math.ceil(memory.length / 3)
const mosts = [0, 1, 2].map((n) => Math.max(...memory.slice(n * third, (n + 1) * third)).toFixed(0))
say(
  `${taken.length} frames of ${WIDTH} x ${HEIGHT} px, one every ${EVERY} s; ${cpus()[0]?.model.trim() ?? ''}, ${availableParallelism()} cores`,
)
say(
  `from whole to told: median ${quantile(sorted, 0.5).toFixed(2)} s, 95 % ${quantile(sorted, 0.95).toFixed(2)} s, most ${Math.max(...taken).toFixed(2)} s; not told: ${missed}`,
)
say(`resident memory, MiB, the most of each third: ${mosts.join(', ')}`)

async function pictures(): Promise<Buffer[]> {
  const drawn = framesOf(1, 2)
  const small = await Promise.all(drawn.map(drawFrame))
  return Promise.all(
    small.map((jpeg) =>
      sharp(jpeg)
        .resize(WIDTH, HEIGHT, { kernel: 'cubic', fit: 'cover' })
        .withExif({})
        .withIccProfile('srgb')
        .jpeg({ quality: 92 })
        .toBuffer(),
    ),
  )
}

/** The same picture with a comment (ITU-T T.81, B.2.4.5), so that its content is another. */
function commented(jpeg: Buffer, text: string): Buffer {
  const head = Buffer.of(0xff, 0xfe, 0, 0)
  head.writeUInt16BE(text.length + 2, 2)
  return Buffer.concat([jpeg.subarray(0, 2), head, Buffer.from(text, 'latin1'), jpeg.subarray(2)])
}

async function listen(stream: string): Promise<void> {
  const { body } = await fetch(stream, { signal: stop.signal })
  for await (const text of body?.pipeThrough(new TextDecoderStream()) ?? [])
    for (const [name] of text.matchAll(/OSL_\d+\.JPG/g))
      if (!told.has(name)) told.set(name, performance.now())
}

async function residentMiB(): Promise<number> {
  const status = await readFile(`/proc/${child.pid}/status`, 'utf8').catch(() => '')
  return Number(/^VmRSS:\s+(\d+)/m.exec(status)?.[1] ?? 0) / 1024
}
