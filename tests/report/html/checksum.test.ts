import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { deliveryChecksum } from '../../../src/report/html/checksum.ts'
import { reportOn } from '../../judge/sample.ts'
import { pageOn } from './sample.ts'

// sha256sum of the GNU coreutils, run on its own output.
test('is what sha256sum says of its list of the files', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'portrait-gate-checksum-'))
  const contents = new Map([
    ['Zoë 2.jpg', 'two'],
    ['a.jpg', 'one'],
    ['b.jpg', ''],
  ])
  for (const [file, text] of contents) await writeFile(join(folder, file), text)
  const report = reportOn(
    [...contents].map(([file, text]) => ({
      file,
      measured: { sha256: createHash('sha256').update(text).digest('hex') },
    })),
  )
  const said = execFileSync('sh', ['-c', 'LC_ALL=C; export LC_ALL; sha256sum *.jpg | sha256sum'], {
    cwd: folder,
    encoding: 'utf8',
  })
  expect(deliveryChecksum(report)).toEqual({ sha256: said.split(' ')[0], files: 3, without: [] })
  await rm(folder, { recursive: true })
})

test('a file that could not be read is told and leaves the others theirs', async () => {
  const whole = reportOn([{ file: 'a.jpg' }])
  const spoiled = reportOn([{ file: 'a.jpg' }, { file: 'b.jpg', measured: { sha256: null } }])
  const { sha256 } = deliveryChecksum(whole)
  expect(deliveryChecksum(spoiled)).toEqual({ sha256, files: 1, without: ['b.jpg'] })
  expect(await pageOn(spoiled)).toContain(
    `2 files, SHA-256 <code>${sha256}</code> of the 1 that could be read; not in it: <bdi>b.jpg</bdi>`,
  )
})

test('nothing that could be read has no checksum', async () => {
  const files = ['a.jpg', 'b.jpg'].map((file) => ({ file, measured: { sha256: null } }))
  expect(await pageOn(reportOn(files))).toContain('2 files, no checksum: none could be read')
})
