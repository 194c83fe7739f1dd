import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { causeOf } from '../../src/files/cause.ts'

test("the system's own word, without paths of ours; else the error as it says itself", async () => {
  const error: unknown = await readFile('/nowhere/at/all').catch((error: unknown) => error)
  expect(causeOf(error)).toBe('ENOENT')
  expect(causeOf(new RangeError('too long'))).toBe('RangeError: too long')
  expect(causeOf('no error')).toBe('no error')
})
