import { createHash, randomFillSync } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { unpackZip } from '../../src/archive/unpack.ts'
import { zipSink } from '../../src/archive/zip-sink.ts'

const MIB = 1024 * 1024
const signal = new AbortController().signal

/** The most memory outside of the heap, in MiB, while something is done. */
async function mostBuffers(work: () => Promise<void>): Promise<number> {
  let most = 0
  const look = () => {
    most = Math.max(most, process.memoryUsage().arrayBuffers / MIB)
  }
  const timer = setInterval(look, 2)
  await work()
  clearInterval(timer)
  return most
}

test('a zip of 256 MiB is packed and unpacked in less memory than half of it', async () => {
  const around = mkdtempSync(join(tmpdir(), 'large-'))
  const path = join(around, 'large.zip')
  const hash = createHash('sha256')
  const before = process.memoryUsage().arrayBuffers / MIB
  const packing = await mostBuffers(async () => {
    const { sink, end } = zipSink(path, 'large', new Date(0))
    await sink.file('data/large.tif', 256 * MIB, async (chunk) => {
      const piece = Buffer.alloc(MIB)
      for (let i = 0; i < 256; i++) {
        randomFillSync(piece)
        hash.update(piece)
        await chunk(piece)
      }
    })
    await end()
  })
  const unpacking = await mostBuffers(() => unpackZip(path, join(around, 'content'), signal))
  expect(packing - before).toBeLessThan(128)
  expect(unpacking - before).toBeLessThan(128)
  const content = readFileSync(join(around, 'content/large/data/large.tif'))
  expect(createHash('sha256').update(content).digest('hex')).toBe(hash.digest('hex'))
  rmSync(around, { recursive: true })
})
