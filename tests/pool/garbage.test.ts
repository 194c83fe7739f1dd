import { expect, test } from 'vitest'
import { Garbage } from '../../src/pool/garbage.ts'

/** How often garbage was collected after each of these pictures, by their pixels. */
async function collections(...pixels: readonly number[]): Promise<number[]> {
  let collected = 0
  const garbage = new Garbage(() => collected++)
  const after: number[] = []
  for (const widthPx of pixels) {
    await garbage.add({ widthPx, heightPx: 1, intact: true })
    after.push(collected)
  }
  return after
}

test('a large picture is collected at once, small ones when as many wait; twice, so that it is given back', async () => {
  expect(await collections(45_000_000)).toEqual([2])
  expect(await collections(24_000_000, 24_000_000, 24_000_000)).toEqual([0, 2, 2])
})

test('what was not decoded leaves nothing to collect', async () => {
  let collected = 0
  await new Garbage(() => collected++).add({ widthPx: 150_000_000, heightPx: 1, intact: null })
  expect(collected).toBe(0)
})

test('the pixels of a picture are given back', async () => {
  const garbage = new Garbage()
  const outside = () => process.memoryUsage().arrayBuffers
  const before = outside()
  const fill = () => Buffer.alloc(200_000_000, 1).length
  fill()
  expect(outside()).toBeGreaterThan(before + 150_000_000)
  await garbage.add({ widthPx: 200_000_000, heightPx: 1, intact: true })
  expect(outside()).toBeLessThan(before + 50_000_000)
})
