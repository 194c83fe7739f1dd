import { describe, expect, it } from 'vitest'
import type { Entry } from '../../src/session-log/entry.ts'
import { stateOf } from '../../src/session-log/state.ts'
import { frameEntry } from './frame-entry.ts'

const sits = (sitter: string | null): Entry => ({ kind: 'sits', sitter })
const pick = (sitter: string, frame: string | null, was = ''): Entry => ({ kind: 'pick', sitter, frame, was })
const undo: Entry = { kind: 'undo' }

function shown(entries: readonly Entry[]) {
  const { state, last } = stateOf(entries)
  return {
    frames: state.frames.map(({ digest, sitter, files }) => `${digest} ${sitter ?? '-'} ${files.join('+')}`),
    sitting: state.sitting,
    picks: Object.fromEntries([...state.picks].map(([sitter, { frame }]) => [sitter, frame])),
    last: last?.kind ?? null,
  }
}

describe('what a session comes to', () => {
  it('gives a frame to whoever sits when it arrives', () => {
    const entries = [frameEntry('a'), sits('Åsa'), frameEntry('b'), sits(null), frameEntry('c')]
    expect(shown(entries).frames).toEqual(['a - a.JPG', 'b Åsa b.JPG', 'c - c.JPG'])
  })

  it('takes frames along when it is undone who sat', () => {
    const entries = [sits('Åsa'), frameEntry('a'), sits('Naoki'), frameEntry('b'), undo]
    expect(shown(entries)).toMatchObject({
      frames: ['a Åsa a.JPG', 'b Åsa b.JPG'],
      sitting: 'Åsa',
      last: 'sits',
    })
  })

  it('undoes deeds one after the other, and stops at none', () => {
    const entries = [sits('Åsa'), frameEntry('a'), frameEntry('b'), pick('Åsa', 'a'), pick('Åsa', 'b')]
    expect(shown(entries).picks).toEqual({ Åsa: 'b' })
    expect(shown([...entries, undo]).picks).toEqual({ Åsa: 'a' })
    expect(shown([...entries, undo, undo]).picks).toEqual({})
    expect(shown([...entries, undo, undo, undo, undo])).toMatchObject({ sitting: null, last: null })
    expect(shown([...entries, undo, pick('Åsa', 'b')]).picks).toEqual({ Åsa: 'b' })
  })

  it('remembers what the roster said before the first pick', () => {
    const { state } = stateOf([frameEntry('a'), pick('Åsa', 'a', '0042'), pick('Åsa', null, 'a.JPG')])
    expect(state.picks.get('Åsa')).toEqual({ frame: null, was: '0042' })
  })

  it('holds a raw file and its JPEG for one frame', () => {
    const raw: Entry = { kind: 'file', digest: 'raw', file: 'a.DNG', bytes: 2, modifiedMs: 2, frame: 'a' }
    const { state } = stateOf([frameEntry('a'), raw])
    expect(state.frames.map(({ files }) => files)).toEqual([['a.JPG', 'a.DNG']])
    expect(state.frameOf('raw')).toBe('a')
    expect(state.hasSeen({ file: 'a.DNG', bytes: 2, modifiedMs: 2 })).toBe(true)
    expect(state.hasSeen({ file: 'a.DNG', bytes: 3, modifiedMs: 2 })).toBe(false)
  })

  it('puts what is written over a file in its place: whose it is and whether it was picked', () => {
    const entries = [
      sits('Åsa'),
      frameEntry('a', 'x.JPG'),
      pick('Åsa', 'a'),
      sits('Naoki'),
      frameEntry('b', 'x.JPG'),
    ]
    expect(shown(entries)).toMatchObject({ frames: ['b Åsa x.JPG'], picks: { Åsa: 'b' } })
  })

  it('keeps a frame that lies elsewhere when another takes its name', () => {
    const moved: Entry = { kind: 'file', digest: 'a', file: 'y.JPG', bytes: 1, modifiedMs: 1, frame: 'a' }
    expect(shown([frameEntry('a', 'x.JPG'), moved, frameEntry('b', 'x.JPG')]).frames).toEqual([
      'a - y.JPG',
      'b - x.JPG',
    ])
  })

  it('leaves forgotten contents alone', () => {
    const { state } = stateOf([{ kind: 'forgotten', digests: ['a'] }])
    expect([state.frameOf('a'), state.frameOf('b')]).toEqual([null, undefined])
  })
})
