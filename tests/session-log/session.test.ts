import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { LOG, Session } from '../../src/session-log/session.ts'
import { frameEntry } from './frame-entry.ts'

let folder: string
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'portrait-gate-session-'))
})
afterEach(() => rm(folder, { recursive: true, force: true }))

const open = async () => (await Session.open(join(folder, 'kept'), () => {})).session

describe('forgetting a sitter', () => {
  it('takes name, numbers and picks out of the log, and leaves the others as they are', async () => {
    const session = await open()
    session.add({ kind: 'sits', sitter: 'Bergström Åsa' })
    session.add(frameEntry('a1', 'one.JPG'))
    session.add(frameEntry('a2', 'one.JPG'))
    session.add({ kind: 'file', digest: 'raw', file: 'one.DNG', bytes: 1, modifiedMs: 1, frame: 'a2' })
    session.add({ kind: 'pick', sitter: 'Bergström Åsa', frame: 'a2', was: '' })
    session.add({ kind: 'sits', sitter: 'Ikeda Naoki' })
    session.add(frameEntry('b1', 'two.JPG'))
    session.add({ kind: 'sits', sitter: 'Bergström Åsa' })
    session.undo()
    session.add(frameEntry('b2', 'three.JPG'))
    const { digests, files } = await session.forget('Bergström Åsa')
    await session.close()
    expect(files).toEqual(['one.JPG', 'one.DNG'])
    expect(digests.toSorted()).toEqual(['a1', 'a2', 'raw'])

    const text = await readFile(join(folder, 'kept', LOG), 'utf8')
    expect(text).not.toContain('Berg')
    expect(text).not.toContain('one.')
    const { state } = await open()
    expect(state.frames.map(({ digest, sitter }) => [digest, sitter])).toEqual([
      ['b1', 'Ikeda Naoki'],
      ['b2', 'Ikeda Naoki'],
    ])
    expect(['a1', 'a2', 'raw'].map((digest) => state.frameOf(digest))).toEqual([null, null, null])
    expect(state.picks.size).toBe(0)
  })
})
