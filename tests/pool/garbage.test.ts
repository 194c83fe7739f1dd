import { expect, test, vi } from 'vitest'
import { Garbage } from '../../src/pool/garbage.ts'

const MIB = 1024 ** 2

/** How often garbage was collected after each file, by what is in use and what each leaves, in MiB. */
async function collections(used: number, ...left: readonly number[]): Promise<number[]> {
  let [collected, waiting] = [0, 0]
  const collect = () => {
    collected++
    waiting = 0
  }
  const garbage = new Garbage(() => (used + waiting) * MIB, collect)
  const after: number[] = []
  for (const bytes of left) {
    waiting += bytes
    await garbage.lookAfter()
    after.push(collected)
  }
  return after
}

test('the pixels of a large picture are collected at once, of small ones when as many wait; twice, so that they are given back', async () => {
  expect(await collections(0, 129)).toEqual([2])
  expect(await collections(0, 64, 64, 1, 64)).toEqual([0, 0, 2, 2])
})

test('what is in use is no garbage', async () => {
  expect(await collections(500, 0, 64, 64, 0, 1)).toEqual([2, 2, 2, 2, 4])
})

test('the pixels of a picture are given back', async () => {
  const garbage = new Garbage()
  const outside = () => process.memoryUsage().arrayBuffers
  const before = outside()
  const fill = () => Buffer.alloc(200_000_000, 1).length
  fill()
  expect(outside()).toBeGreaterThan(before + 150_000_000)
  await garbage.lookAfter()
  expect(outside()).toBeLessThan(before + 50_000_000)
})

test('as much as is in use may wait where that is asked for', async () => {
  let [held, collected] = [100, 0]
  const garbage = new Garbage(
    () => held,
    () => {
      collected++
      held = 60
    },
    (used) => used,
  )
  await garbage.lookAfter()
  expect([collected, held]).toEqual([2, 60])
  held = 120
  await garbage.lookAfter()
  expect(collected).toBe(2)
  held = 121
  await garbage.lookAfter()
  expect(collected).toBe(4)
})

test('buffers that are kept for the next picture are in use', async () => {
  // Test files share a process, and what others have left in it would fill what may be kept.
  vi.resetModules()
  const { bufferFor, recycling } = await import('../../src/kernels/recycling.ts')
  const { Garbage } = await import('../../src/pool/garbage.ts')
  let [collected, most] = [0, Number.NEGATIVE_INFINITY]
  const garbage = new Garbage(
    undefined,
    () => {
      collected++
    },
    () => most,
  )
  await garbage.lookAfter()
  most = 40 * MIB
  await recycling(async () => void bufferFor(90 * MIB))
  await garbage.lookAfter()
  expect(collected).toBe(2)
  const waiting = Buffer.alloc(90 * MIB)
  await garbage.lookAfter()
  expect([collected, waiting.length]).toEqual([4, 90 * MIB])
})
