import { execFileSync } from 'node:child_process'
import {
  constants,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { open } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { writeWhole } from '../../src/files/write-whole.ts'
import { recordingHost } from '../commands/host.ts'
import { temporaryFolder } from '../measure/samples.ts'

const HOUR = 3600

test('a file, new or over an old one, and nothing else stays behind', async () => {
  const folder = temporaryFolder()
  const { host } = recordingHost(folder)
  await writeWhole('report.json', 'one', host)
  await writeWhole('report.json', 'two', host)
  expect(readFileSync(join(folder, 'report.json'), 'utf8')).toBe('two')
  expect(readdirSync(folder)).toEqual(['report.json'])
})

test('what kills left an hour ago is removed; what may still be written, and what only looks alike, is not', async () => {
  const folder = temporaryFolder()
  const parts = ['.report.json.0123456789ab.part', '.report.json.aaaaaaaaaaaa.part']
  const others = ['.report.json.xyz.part', '.other.json.0123456789ab.part', 'report.json.0123456789ab.part']
  const longAgo = Date.now() / 1000 - 2 * HOUR
  for (const name of [...parts, ...others]) writeFileSync(join(folder, name), 'x')
  for (const name of [parts[0] as string, ...others]) utimesSync(join(folder, name), longAgo, longAgo)
  await writeWhole('report.json', 'x', recordingHost(folder).host)
  expect(readdirSync(folder).sort()).toEqual(['report.json', parts[1], ...others].sort())
})

test('a folder in its place, or no folder to write to, is an error, and nothing stays behind', async () => {
  const folder = temporaryFolder()
  mkdirSync(join(folder, 'report.json'))
  const { host } = recordingHost(folder)
  await expect(writeWhole('report.json', 'x', host)).rejects.toMatchObject({ code: 'EISDIR' })
  await expect(writeWhole('none/report.json', 'x', host)).rejects.toMatchObject({ code: 'ENOENT' })
  expect(readdirSync(folder)).toEqual(['report.json'])
})

test('a link is replaced, and what it led to is left alone', async () => {
  const folder = temporaryFolder()
  writeFileSync(join(folder, 'precious'), 'precious')
  symlinkSync('precious', join(folder, 'report.json'))
  await writeWhole('report.json', 'x', recordingHost(folder).host)
  expect(readFileSync(join(folder, 'precious'), 'utf8')).toBe('precious')
  expect(readFileSync(join(folder, 'report.json'), 'utf8')).toBe('x')
})

describe.skipIf(process.platform === 'win32')('what is no file is written to, never replaced', () => {
  test('a device', async () => {
    await writeWhole('/dev/null', 'x', recordingHost('/').host)
    expect(statSync('/dev/null').isCharacterDevice()).toBe(true)
    if (!existsSync('/dev/full')) return
    await expect(writeWhole('/dev/full', 'x', recordingHost('/').host)).rejects.toMatchObject({
      code: 'ENOSPC',
    })
    expect(statSync('/dev/full').isCharacterDevice()).toBe(true)
  })

  test('a pipe', async () => {
    const folder = temporaryFolder()
    const pipe = join(folder, 'pipe')
    execFileSync('mkfifo', [pipe])
    const reader = await open(pipe, constants.O_RDONLY | constants.O_NONBLOCK)
    await writeWhole('pipe', 'whole', recordingHost(folder).host)
    const { bytesRead, buffer } = await reader.read(Buffer.alloc(100), 0, 100)
    await reader.close()
    expect(buffer.toString('utf8', 0, bytesRead)).toBe('whole')
    expect(readdirSync(folder)).toEqual(['pipe'])
  })
})

test.skipIf(process.platform === 'win32').each(['/dev/null', '/dev/zero', '/dev/stdout', '/dev/full'])(
  'a link to %s is replaced by the file',
  async (device) => {
    const folder = temporaryFolder()
    symlinkSync(device, join(folder, 'report.json'))
    await writeWhole('report.json', 'x', recordingHost(folder).host)
    expect(readFileSync(join(folder, 'report.json'), 'utf8')).toBe('x')
  },
)
