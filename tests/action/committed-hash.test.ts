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

test('of a pointer of Git LFS it is the one that it names, wherever the line stands', async () => {
  expect(await committedHash(temporaryFile('a.jpg', POINTER))).toBe(OID)
  const extended = POINTER.replace('oid', 'ext-0-foo sha256:0\noid')
  expect(await committedHash(temporaryFile('a.jpg', extended))).toBe(OID)
})

test('what is longer than a pointer may be is none, and what cannot be read has no hash', async () => {
  const exact = POINTER.padEnd(1024, '\n')
  expect(await committedHash(temporaryFile('a.jpg', exact))).toBe(OID)
  expect(await committedHash(temporaryFile('a.jpg', `${exact}\n`))).toBe(sha256(`${exact}\n`))
  expect(await committedHash('/nowhere/a.jpg')).toBeNull()
})
