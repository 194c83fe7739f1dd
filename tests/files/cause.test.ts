import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { causeOf, notWritten } from '../../src/files/cause.ts'

test("the system's own word, without paths of ours; else the error as it says itself", async () => {
  const error: unknown = await readFile('/nowhere/at/all').catch((error: unknown) => error)
  expect(causeOf(error)).toBe('ENOENT')
  expect(causeOf(new RangeError('too long'))).toBe('RangeError: too long')
  expect(causeOf('no error')).toBe('no error')
})

// The system's words as POSIX.1-2017 has them, System Interfaces, 2.3.
test.each([
  ['ENOSPC', 'The disk is full: free some space.'],
  ['EACCES', 'You may not write there'],
  ['EROFS', 'The disk can only be read'],
  ['ENOENT', 'Its folder is not there'],
  ['EIO', 'Name a place that you may write to.'],
  ['constructor', 'Name a place that you may write to.'],
])('a file that can not be written, %s, says what to do', (code, step) => {
  const said = notWritten(Object.assign(new Error('no'), { code }))
  expect(said.startsWith(`could not be written (${code}). ${step}`), said).toBe(true)
})
