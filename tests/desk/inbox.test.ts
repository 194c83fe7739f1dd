import { appendFile, mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { Inbox } from '../../src/desk/inbox.ts'

let folder: string
let inbox: Inbox
let news: string[]
let notes: readonly string[]
/** Waits until it has looked so often. */
let looks: () => Promise<void>

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'inbox-'))
  news = []
  const waiting: (() => void)[] = []
  inbox = new Inbox({
    folder,
    everyMs: 5,
    take: (name) => news.push(`take ${name}`),
    gone: (name) => news.push(`gone ${name}`),
    tell: (told) => {
      notes = told
      for (const go of waiting.splice(0)) go()
    },
  })
  const look = () => new Promise<void>((go) => waiting.push(go))
  looks = async () => {
    // The one that goes on now may have begun before.
    for (let n = 0; n < 3; n++) await look()
  }
  inbox.start()
})
afterEach(async () => {
  await inbox.close()
  await rm(folder, { recursive: true, force: true })
})

test('zips and folders are taken once they keep still, and again when they have changed', async () => {
  await mkdir(join(folder, 'web'))
  await writeFile(join(folder, 'web/a.jpg'), 'a')
  await writeFile(join(folder, 'osprey.ZIP'), 'PK')
  await looks()
  expect(news.splice(0).sort()).toEqual(['take osprey.ZIP', 'take web'])
  await looks()
  expect(news).toEqual([])
  await appendFile(join(folder, 'web/a.jpg'), 'b')
  await looks()
  expect(news.splice(0)).toEqual(['take web'])
  await rm(join(folder, 'osprey.ZIP'))
  await looks()
  expect(news).toEqual(['gone osprey.ZIP'])
})

test('what is no delivery is told, what is signed is left alone, and links are not followed', async () => {
  await writeFile(join(folder, 'Lund.jpg'), 'a')
  await writeFile(join(folder, '.DS_Store'), 'a')
  await mkdir(join(folder, 'web'))
  await writeFile(join(folder, 'web.sign-off.json'), '{}')
  await symlink(tmpdir(), join(folder, 'elsewhere'))
  await looks()
  expect(news).toEqual([])
  expect([...notes].sort()).toEqual([
    'Lund.jpg is neither a zip nor a folder; put portraits into a folder.',
    'elsewhere is neither a zip nor a folder; put portraits into a folder.',
    'web was signed before and is left alone (web.sign-off.json).',
  ])
})

test('a folder that is gone is told, and looked at again when it is back', async () => {
  await rm(folder, { recursive: true })
  await looks()
  expect(notes).toEqual([`${folder} can't be read. Bring it back, or check that you may read it.`])
  await mkdir(join(folder, 'web'), { recursive: true })
  await looks()
  expect(news).toEqual(['take web'])
})
