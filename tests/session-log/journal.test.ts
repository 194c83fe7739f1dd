import { appendFile, mkdtemp, readFile, rename, rm, truncate, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { Journal } from '../../src/session-log/journal.ts'

let folder: string
const log = () => join(folder, 'session.jsonl')
const sits = (sitter: string) => ({ kind: 'sits', sitter }) as const

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'portrait-gate-journal-'))
})
afterEach(() => rm(folder, { recursive: true, force: true }))

async function opened(told: (string | null)[] = []) {
  return Journal.open(log(), (trouble) => told.push(trouble))
}

async function write(...sitters: string[]): Promise<void> {
  const { journal } = await opened()
  for (const sitter of sitters) journal.add(sits(sitter))
  await journal.close()
}

describe('the log', () => {
  it('gives back what was added, in its order', async () => {
    await write('Åsa', 'Naoki')
    await write('Søren')
    const { read } = await opened()
    expect(read).toEqual({ entries: [sits('Åsa'), sits('Naoki'), sits('Søren')], unread: 0 })
  })

  it('may be cut off at any byte: what was whole stays, and new entries follow it', async () => {
    await write('Åsa', 'Naoki')
    const whole = await readFile(log())
    const first = whole.indexOf('\n') + 1
    for (let length = 0; length < whole.length; length++) {
      await writeFile(log(), whole.subarray(0, length))
      await write('Søren')
      const { read } = await opened()
      const kept = length < first ? [] : [sits('Åsa')]
      expect(read, `cut off after ${length} bytes`).toEqual({ entries: [...kept, sits('Søren')], unread: 0 })
    }
  })

  it('passes over lines that are no entries, and counts them', async () => {
    await write('Åsa')
    await appendFile(
      log(),
      'notes of mine\n{"kind":"sits"}\n{"kind":"pick","sitter":"a","frame":1,"was":""}\n[]\n',
    )
    await write('Naoki')
    const { read } = await opened()
    expect(read).toEqual({ entries: [sits('Åsa'), sits('Naoki')], unread: 4 })
  })

  it('waits for its folder, tells so, and then writes all that waited', async () => {
    const told: (string | null)[] = []
    const { journal } = await opened(told)
    journal.add(sits('Åsa'))
    await journal.settled()
    await rename(folder, `${folder}-away`)
    journal.add(sits('Naoki'))
    await journal.settled()
    expect(told).toEqual(['ENOENT'])
    await rename(`${folder}-away`, folder)
    journal.add(sits('Søren'))
    await journal.close()
    expect(told).toEqual(['ENOENT', null])
    const { read } = await opened()
    expect(read.entries).toEqual([sits('Åsa'), sits('Naoki'), sits('Søren')])
  })

  it('is written anew where it was deleted or cut short by others', async () => {
    const { journal } = await opened()
    journal.add(sits('Åsa'))
    await journal.settled()
    await rm(log())
    journal.add(sits('Naoki'))
    await journal.settled()
    await truncate(log(), 3)
    journal.add(sits('Søren'))
    await journal.close()
    expect((await opened()).read.entries).toEqual([sits('Åsa'), sits('Naoki'), sits('Søren')])
  })
})
