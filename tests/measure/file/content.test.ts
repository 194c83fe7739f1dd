import { execFileSync } from 'node:child_process'
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { readContent } from '../../../src/measure/file/content.ts'
import { temporaryFile, temporaryFolder } from '../samples.ts'

const PLENTY = 1000

test('a file', async () => {
  const content = await readContent(temporaryFile('a.jpg', 'abc'), PLENTY)
  expect(content).toEqual({ bytes: 3, data: Buffer.from('abc') })
})

describe('what is no file to read', () => {
  test('empty', async () => {
    const content = await readContent(temporaryFile('a.jpg', ''), PLENTY)
    expect(content).toEqual({ bytes: 0, fault: { kind: 'empty', detail: '' } })
  })

  test('larger than the limit, which is allowed itself', async () => {
    const path = temporaryFile('a.jpg', 'abcd')
    expect(await readContent(path, 4)).toHaveProperty('data')
    expect(await readContent(path, 3)).toEqual({
      bytes: 4,
      fault: { kind: 'too-large', detail: '4 bytes; the limit is 3' },
    })
  })

  test('a device that flows without end', async () => {
    const content = await readContent('/dev/zero', PLENTY)
    expect(content).toMatchObject({ bytes: 0, fault: { kind: 'unreadable' } })
  })

  test('a folder', async () => {
    const path = join(temporaryFolder(), 'folder.jpg')
    mkdirSync(path)
    const content = await readContent(path, PLENTY)
    expect(content).toEqual({ bytes: 0, fault: { kind: 'unreadable', detail: 'not a regular file' } })
  })

  test("vanished: in the system's words, without the path", async () => {
    const content = await readContent(join(temporaryFolder(), 'gone.jpg'), PLENTY)
    expect(content).toEqual({
      bytes: 0,
      fault: { kind: 'unreadable', detail: 'ENOENT: no such file or directory' },
    })
  })

  test('a name that no system accepts', async () => {
    const content = await readContent('/a\0b.jpg', PLENTY)
    expect(content).toMatchObject({ bytes: 0, fault: { kind: 'unreadable' } })
  })

  // Windows has no mkfifo.
  test.skipIf(process.platform === 'win32')('a named pipe that nobody writes to does not block', async () => {
    const path = join(temporaryFolder(), 'pipe.jpg')
    execFileSync('mkfifo', [path])
    const content = await readContent(path, PLENTY)
    expect(content).toEqual({ bytes: 0, fault: { kind: 'unreadable', detail: 'not a regular file' } })
  })
})
