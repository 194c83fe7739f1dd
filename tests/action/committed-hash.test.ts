import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { expect, test } from 'vitest'
import { committedHash } from '../../src/action/committed-hash.ts'
import { temporaryFile } from '../measure/samples.ts'

const sha256 = (content: string) => createHash('sha256').update(content).digest('hex')
const OID = sha256('a portrait')
// The example of Git LFS, docs/spec.md, version 1, with a hash of our own.
const POINTER = `version https://git-lfs.github.com/spec/v1\noid sha256:${OID}\nsize 12345\n`

test('of a file it is that of its content', async () => {
  expect(await committedHash(temporaryFile('a.jpg', 'letter'))).toBe(sha256('letter'))
})

test('of a pointer of Git LFS it is the one that it names', async () => {
  expect(await committedHash(temporaryFile('a.jpg', POINTER))).toBe(OID)
})

// What git-lfs itself takes for one (Debian's git-lfs); an extension would change the content.
test.each([
  ['as it should be', POINTER],
  ['blank lines', POINTER.replaceAll('\n', '\n\n')],
  ['two hashes', POINTER.replace('oid', `oid sha256:${'0'.repeat(64)}\noid`)],
  ['no size', POINTER.replace('size 12345\n', '')],
  ['no number', POINTER.replace('12345', 'x')],
  ['a key too much', `${POINTER}more x\n`],
  ['another order', POINTER.replace(/(oid.*\n)(size.*\n)/, '$2$1')],
  ['an unknown key', POINTER.replace('oid', 'note x\noid')],
])('%s', async (_, text) => {
  const path = temporaryFile('a.jpg', text)
  const { status } = spawnSync('git', ['lfs', 'pointer', '--check', '--file', path])
  expect(await committedHash(path)).toBe(status === 0 ? OID : sha256(text))
})

test('a pointer with an extension is none: its content would be another one', async () => {
  const extended = POINTER.replace('oid', `ext-0-foo sha256:${'0'.repeat(64)}\noid`)
  expect(await committedHash(temporaryFile('a.jpg', extended))).toBe(sha256(extended))
})

test('what is longer than a pointer may be is none, and what cannot be read has no hash', async () => {
  const exact = POINTER.padEnd(1024, '\n')
  expect(await committedHash(temporaryFile('a.jpg', exact))).toBe(OID)
  expect(await committedHash(temporaryFile('a.jpg', `${exact}\n`))).toBe(sha256(`${exact}\n`))
  expect(await committedHash('/nowhere/a.jpg')).toBeNull()
})
