import { mkdir, readdir, readFile, rename, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { OpenDesk } from '../../desk/open-desk.ts'
import { shown, tap } from '../../watch/session-folder.ts'

let desk: OpenDesk
beforeEach(async () => {
  desk = await OpenDesk.make()
})
afterEach(() => desk.remove())

test('what is put into the folder is received when it is whole, and signed beside it', async () => {
  await desk.seal('osprey.zip')
  const inbox = join(desk.base, 'inbox')
  await mkdir(inbox)
  await writeFile(join(inbox, 'note.txt'), 'Hello')
  let url = await desk.open('--inbox', inbox)
  const wish = (one: unknown) => tap(url, one)
  const until = (text: string) => shown(url, 'events', text)
  await until('note.txt is neither a zip nor a folder')
  await rename(join(desk.base, 'osprey.zip'), join(inbox, 'osprey.zip'))
  const parts = await until('Of 2 portraits, 1 fails.')
  const delivery = /"delivery":"(\w+)"/.exec(parts.signing?.replaceAll('&quot;', '"') ?? '')?.[1]
  expect(await wish({ do: 'answer', delivery, question: 0, agreed: true })).toBe(204)
  const signing = { do: 'sign', delivery, by: 'Ingrid Vale', note: '', decision: 'approved' }
  expect(await wish(signing)).toBe(204)
  await until('Approved by')
  expect(await wish({ do: 'end' })).toBe(204)
  await desk.ended
  expect((await readdir(inbox)).sort()).toEqual(['note.txt', 'osprey.zip', 'osprey.zip.sign-off.json'])
  const signed: unknown = JSON.parse(await readFile(join(inbox, 'osprey.zip.sign-off.json'), 'utf8'))
  expect(signed).toMatchObject({ decision: 'approved', by: 'Ingrid Vale', judged: { verdict: 'pass' } })
  url = await desk.open('--inbox', inbox)
  await until('osprey.zip was signed before and is left alone')
})
