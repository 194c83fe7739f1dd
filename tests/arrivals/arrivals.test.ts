import { mkdir, mkdtemp, open, rename, rm, symlink, utimes, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { Arrivals, type Taken } from '../../src/arrivals/arrivals.ts'
import type { Candidate } from '../../src/arrivals/candidate.ts'
import type { FolderNews } from '../../src/arrivals/folder-watch.ts'

let base: string
let folder: string
let arrivals: Arrivals | null
/** Whatever happened, in its order. */
let taken: Candidate[]
let news: FolderNews[]
let listeners: (() => void)[]
/** Files that count as whole: all but those of fewer bytes. */
let leastBytes: number

beforeEach(async () => {
  base = await mkdtemp(join(tmpdir(), 'portrait-gate-arrivals-'))
  folder = join(base, 'shoot')
  await mkdir(folder)
  ;[arrivals, taken, news, listeners, leastBytes] = [null, [], [], [], 0]
})
afterEach(async () => {
  await arrivals?.close()
  await rm(base, { recursive: true, force: true })
})

async function start(): Promise<void> {
  const happened = () => {
    for (const listener of listeners) listener()
  }
  arrivals = new Arrivals({
    folder,
    atOnce: 2,
    isKnown: ({ file, bytes, modifiedMs }) =>
      taken.some((one) => one.file === file && one.bytes === bytes && one.modifiedMs === modifiedMs),
    take: async (candidate): Promise<Taken> => {
      if (candidate.bytes < leastBytes) return 'not-whole'
      taken.push(candidate)
      happened()
      return 'done'
    },
    tellUnfinished: () => {},
    tell: (one) => {
      news.push(one)
      happened()
    },
  })
  await arrivals.start()
}

/** Waits for what a test expects, by nothing but what happens. */
function until(holds: () => boolean): Promise<void> {
  return new Promise((resolve) => {
    const look = () => {
      if (holds()) resolve()
    }
    listeners.push(look)
    look()
  })
}
const names = () => taken.map(({ file }) => file).toSorted()
const put = (file: string, text = file) => writeFile(join(folder, file), text)

describe('files as they arrive', () => {
  it('takes those that are there, and those that come, and nothing else', async () => {
    await put('a.jpg')
    await mkdir(join(folder, '.hidden'))
    await put('.hidden/b.jpg')
    await put('notes.txt')
    await put('list.xmp')
    await writeFile(join(base, 'outside.jpg'), 'x')
    await symlink(join(base, 'outside.jpg'), join(folder, 'link.jpg'))
    await start()
    await until(() => taken.length === 1)
    await put('B.JPG')
    await mkdir(join(folder, 'card'))
    await put('card/a.jpg', 'another')
    await until(() => taken.length === 3)
    expect(names()).toEqual(['B.JPG', 'a.jpg', 'card/a.jpg'])
  })

  it('waits for a file that grows, and takes it once, when it is whole', async () => {
    leastBytes = 500
    await start()
    const file = await open(join(folder, 'slow.jpg'), 'w')
    for (let n = 0; n < 5; n++) {
      await file.write('x'.repeat(100))
      await new Promise((resolve) => setTimeout(resolve, 120))
    }
    await file.close()
    await until(() => taken.length === 1)
    await arrivals?.look()
    expect(taken.map(({ bytes }) => bytes)).toEqual([500])
  })

  it('takes a file again that was written over', async () => {
    await start()
    await put('a.jpg', 'first')
    await until(() => taken.length === 1)
    await put('a.jpg', 'the second')
    await until(() => taken.length === 2)
    expect(taken.map(({ bytes }) => bytes)).toEqual([5, 10])
  })

  it('does not care for clocks: a file from the future, and one of 1980', async () => {
    await start()
    await put('future.jpg')
    await utimes(join(folder, 'future.jpg'), 4e9, 4e9)
    await put('past.jpg')
    await utimes(join(folder, 'past.jpg'), 315_532_800, 315_532_800)
    await until(() => ['future.jpg', 'past.jpg'].every((file) => taken.some((one) => one.file === file)))
  })

  it('goes on when the folder is taken away and returns', async () => {
    await start()
    await put('a.jpg')
    await until(() => taken.length === 1)
    await rename(folder, join(base, 'elsewhere'))
    await until(() => news.includes('gone'))
    await rename(join(base, 'elsewhere'), folder)
    await until(() => news.includes('back'))
    await put('b.jpg')
    await until(() => taken.length === 2)
    expect(names()).toEqual(['a.jpg', 'b.jpg'])
    expect(news).toEqual(['gone', 'back'])
  })

  it('finds what lies in a folder that was renamed', async () => {
    await mkdir(join(folder, 'one'))
    await put('one/a.jpg')
    await start()
    await until(() => taken.length === 1)
    await rename(join(folder, 'one'), join(folder, 'two'))
    await until(() => taken.length === 2)
    expect(names()).toEqual(['one/a.jpg', 'two/a.jpg'])
  })
})
