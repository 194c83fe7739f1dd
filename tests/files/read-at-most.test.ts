import { execFileSync } from 'node:child_process'
import { once } from 'node:events'
import { symlinkSync } from 'node:fs'
import { createServer } from 'node:net'
import { join } from 'node:path'
import { Worker } from 'node:worker_threads'
import { describe, expect, test } from 'vitest'
import { FileMemory } from '../../src/files/file-memory.ts'
import { readAtMost } from '../../src/files/read-at-most.ts'
import { temporaryFile, temporaryFolder } from '../measure/samples.ts'

test('a file, up to the limit and no byte more', async () => {
  const path = temporaryFile('a', 'abcd')
  expect(await readAtMost(path, 4)).toEqual({ data: Buffer.from('abcd') })
  expect(await readAtMost(path, 3)).toEqual({ refused: 'too-large', bytes: 4 })
  expect(await readAtMost(temporaryFile('b', ''), 0)).toEqual({ data: Buffer.alloc(0) })
})

test('a large file, whole', async () => {
  const content = Buffer.alloc(5_000_001, 'portrait')
  const read = await readAtMost(temporaryFile('a', content), 6_000_000)
  // Comparing byte for byte by expect takes minutes on a busy machine.
  expect('data' in read && read.data.equals(content)).toBe(true)
})

describe('a file that changes while it is read', () => {
  /** Reads while another thread does something to the file over and over. */
  async function readMeanwhile(change: string, maxBytes: number) {
    const path = temporaryFile('a', Buffer.alloc(1_000_000, 'a'))
    const code = `const { appendFileSync, statSync, truncateSync, writeFileSync } = require('node:fs')
      const { parentPort, workerData: path } = require('node:worker_threads')
      const change = () => { ${change} }
      change()
      parentPort.postMessage('begun')
      for (const end = Date.now() + 300; Date.now() < end; ) change()`
    const worker = new Worker(code, { eval: true, workerData: path })
    await once(worker, 'message')
    const read = await readAtMost(path, maxBytes)
    await once(worker, 'exit')
    return read
  }

  test('grows without end: no more than the limit is read', async () => {
    const read = await readMeanwhile(
      `if (statSync(path).size < 20_000_000) appendFileSync(path, Buffer.alloc(100_000, 'b'))`,
      4_000_000,
    )
    expect([true, 'too-large']).toContain('data' in read ? read.data.length <= 4_000_000 : read.refused)
  })

  test('is cut short: what is left is given', async () => {
    const read = await readMeanwhile('truncateSync(path, 10)', 4_000_000)
    expect('data' in read && read.data.every((byte) => byte === 0x61)).toBe(true)
  })

  test('is replaced: one of the two is given whole', async () => {
    const read = await readMeanwhile(`writeFileSync(path, 'new')`, 4_000_000)
    expect('data' in read).toBe(true)
  })
})

describe.skipIf(process.platform === 'win32')('no regular file, and nothing waits for it', () => {
  test.each(['/dev/zero', '/dev/full', '/dev/tty0', '/proc', '/'])('%s', async (path) => {
    await expect(readAtMost(path, 1000).catch(() => ({ refused: 'no-file' }))).resolves.toEqual({
      refused: 'no-file',
    })
  })

  test('a link to a device', async () => {
    const path = join(temporaryFolder(), 'a.jpg')
    symlinkSync('/dev/zero', path)
    expect(await readAtMost(path, 1000)).toEqual({ refused: 'no-file' })
  })

  test('a named pipe', async () => {
    const path = join(temporaryFolder(), 'pipe')
    execFileSync('mkfifo', [path])
    expect(await readAtMost(path, 1000)).toEqual({ refused: 'no-file' })
  })

  test('a socket', async () => {
    const path = join(temporaryFolder(), 'socket')
    const server = createServer().listen(path)
    await new Promise((resolve) => server.once('listening', resolve))
    try {
      await expect(readAtMost(path, 1000)).rejects.toMatchObject({ code: 'ENXIO' })
    } finally {
      server.close()
    }
  })

  // The kernel states a size of 0 for what it makes when it is read.
  test.skipIf(process.platform !== 'linux')(
    'a file whose size is not known before is read to its end',
    async () => {
      const read = await readAtMost('/proc/self/status', 1_000_000)
      expect('data' in read && read.data.length).toBeGreaterThan(100)
      expect(await readAtMost('/proc/self/status', 100)).toMatchObject({ refused: 'too-large' })
    },
  )
})

test('memory that is used again holds one file after the other', async () => {
  const memory = new FileMemory()
  const long = await readAtMost(temporaryFile('a', 'a long one'), 100, memory)
  expect(long).toEqual({ data: Buffer.from('a long one') })
  const short = await readAtMost(temporaryFile('b', 'short'), 100, memory)
  expect(short).toEqual({ data: Buffer.from('short') })
  if (!('data' in long) || !('data' in short)) throw new Error('not read')
  expect(short.data.buffer).toBe(long.data.buffer)
})
