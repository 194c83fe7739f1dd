import { expect, test } from 'vitest'
import { decoder } from '../../../src/measure/file/decoder.ts'

test('keeps no cache and one thread', () => {
  expect(decoder.cache()).toMatchObject({ memory: { max: 0 }, files: { max: 0 }, items: { max: 0 } })
  expect(decoder.concurrency()).toBe(1)
})
