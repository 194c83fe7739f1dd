import { expect, test } from 'vitest'
import { indexesOf, thinned, valuesAt } from '../../src/imaging/pixel-indexes.ts'
import { samplesOf } from '../../src/kernels/masks.ts'
import { seeded } from '../random.ts'

test('the indexes of what is set, and the values there', () => {
  const indexes = indexesOf(Uint8Array.of(0, 1, 0, 0, 1))
  expect([...indexes]).toEqual([1, 4])
  expect([...valuesAt(Float32Array.of(5, 6, 7, 8, 9), indexes)]).toEqual([6, 9])
})

test('few are kept as they are; of many about as many as asked for, evenly', () => {
  const ten = Int32Array.from({ length: 10 }, (_, i) => 10 * i)
  expect([...thinned(ten, 20)]).toEqual([...ten])
  expect([...thinned(ten, 5)]).toEqual([0, 20, 40, 60, 80])
  expect(thinned(new Int32Array(0), 5)).toHaveLength(0)
})

test('samples of a mask are the thinned list of its pixels', () => {
  const random = seeded(11)
  for (const share of [0, 0.01, 0.3, 0.9, 1]) {
    const mask = Uint8Array.from({ length: 5000 }, () => (random() < share ? 1 : 0))
    for (const most of [7, 100, 2500]) expect(samplesOf(mask, most)).toEqual(thinned(indexesOf(mask), most))
  }
})
