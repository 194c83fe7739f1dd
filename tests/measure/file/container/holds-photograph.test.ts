import { execFileSync } from 'node:child_process'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { holdsPhotograph } from '../../../../src/measure/file/container/holds-photograph.ts'
import { plain, temporaryFile, temporaryFolder } from '../../samples.ts'

describe('a photograph is known by its first bytes', () => {
  test.each(['jpeg', 'png', 'tiff', 'webp', 'avif', 'gif'] as const)('%s', async (format) => {
    expect(
      holdsPhotograph(temporaryFile('portrait', await plain([9, 9, 9]).toFormat(format).toBuffer())),
    ).toBe(true)
  })

  test('HEIC, which is refused later', () => {
    // ISO/IEC 14496-12: a box of 24 bytes, type ftyp, major brand heic.
    const heic = Buffer.from('00000018667479706865696300000000686569636d696631', 'hex')
    expect(holdsPhotograph(temporaryFile('portrait', heic))).toBe(true)
  })
})

test.each([
  ['a letter', 'BMW keys are with the desk.'],
  ['nothing', ''],
  ['a drawing', '<svg xmlns="http://www.w3.org/2000/svg"/>'],
  ['a document', '%PDF-1.7'],
  ['an archive', 'PK\u0003\u0004'],
])('%s is none', (_, content) => {
  expect(holdsPhotograph(temporaryFile('file', content))).toBe(false)
})

test('a pipe, a folder and what is gone are none, and nothing waits for them', () => {
  const folder = temporaryFolder()
  execFileSync('mkfifo', [join(folder, 'pipe')])
  for (const path of [join(folder, 'pipe'), folder, join(folder, 'gone')])
    expect(holdsPhotograph(path)).toBe(false)
})
