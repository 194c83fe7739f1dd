import { expect, test, vi } from 'vitest'

// Test files share a process, and what others have left in it would fill what may be kept.
vi.resetModules()
const { withKernels } = await import('../../src/kernels/with-kernels.ts')
const { bufferFor, lentCopy, recycling } = await import('../../src/kernels/recycling.ts')

const BYTES = 100_000

test('buffers of a work are lent to the next one, and to none before', async () => {
  const first = await recycling(async () => [bufferFor(BYTES), bufferFor(BYTES)])
  expect(new Set(first).size).toBe(2)
  const second = await recycling(async () => [bufferFor(BYTES), bufferFor(BYTES - 1), bufferFor(BYTES)])
  expect(second.slice(0, 2).every((buffer) => first.includes(buffer))).toBe(true)
  expect(new Set(second).size).toBe(3)
})

test('they are given back by a work that fails, and no two work at a time', async () => {
  let lent: ArrayBuffer | undefined
  const failed = recycling(async () => {
    lent = bufferFor(7 * BYTES)
    throw new Error('No.')
  })
  await expect(recycling(async () => {})).rejects.toThrow('one work at a time')
  await expect(failed).rejects.toThrow('No.')
  expect((await recycling(async () => bufferFor(7 * BYTES))) === lent).toBe(true)
})

test('outside of a work nothing is used again, and more than is kept is given back', async () => {
  const own = bufferFor(3 * BYTES)
  expect((await recycling(async () => bufferFor(3 * BYTES))) === own).toBe(false)
  const large = 97 * 1024 ** 2
  const first = await recycling(async () => bufferFor(large))
  expect((await recycling(async () => bufferFor(large))) === first).toBe(false)
})

test('what kernels give is as long as it is, whatever a buffer held before', async () => {
  const read = (values: Uint8Array) =>
    withKernels((_, memory) => memory.bytes(memory.put(values), values.length))
  await recycling(async () => read(new Uint8Array(90_000).fill(7)))
  const values = Uint8Array.from({ length: 80_000 }, (_, i) => i)
  expect(Buffer.compare(await recycling(async () => read(values)), values)).toBe(0)
  expect(withKernels((_, memory) => [...memory.bytes(memory.zeros(5), 5)])).toEqual([0, 0, 0, 0, 0])
})

test('a picture is copied where the next one will lie, but for one that is too large or outside of a work', async () => {
  const picture = Buffer.from(Uint8Array.from({ length: BYTES }, (_, i) => i))
  expect(lentCopy(picture)).toBe(picture)
  const copied = async () => lentCopy(picture)
  const [first, second] = [await recycling(copied), await recycling(copied)]
  expect(Buffer.compare(first, picture)).toBe(0)
  expect(first.buffer).not.toBe(picture.buffer)
  expect(second.buffer).toBe(first.buffer)
  const large = Buffer.alloc(33 * 1024 ** 2)
  expect(await recycling(async () => lentCopy(large))).toBe(large)
})
