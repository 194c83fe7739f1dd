import { copyFile, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { run } from '../../src/commands/run.ts'
import type { Report } from '../../src/judge/report.ts'
import { recordingHost } from './host.ts'

const GOOD = 'examples/osprey-lane/delivery-clean/web/Nair-Priya_15388.jpg'

test('pictures under names that no system opens as pictures are judged, and fail by their extension', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'odd-names-'))
  const host = recordingHost(folder)
  try {
    for (const name of ['a.pjpeg', 'b.mpo', 'c', 'd.jpg ', 'e.jpg.', 'f.old', 'good.jpg'])
      await copyFile(GOOD, join(folder, name))
    await writeFile(join(folder, 'letter'), 'Dear marketing, please find the portraits attached.\n')
    await writeFile(join(folder, 'brand.yaml'), 'brand: Osprey Lane\nversion: 1\none-face: false\n')
    expect(await run(['check', '.', '--format', 'json', '--no-cache'], host.host)).toBe(1)
    const { files, left } = JSON.parse(host.stdout()) as Report
    const verdicts = files.map(({ file, outcomes }) => {
      const format = outcomes.find(({ rule }) => rule === 'file-format')
      return `${file}: ${format?.verdict}, ${format?.measured}`
    })
    expect(verdicts).toEqual([
      'a.pjpeg: fail, JPEG, ".pjpeg"',
      'b.mpo: fail, JPEG, ".mpo"',
      'c: fail, JPEG, no extension',
      'd.jpg : fail, JPEG, ".jpg "',
      'e.jpg.: fail, JPEG, no extension',
      'f.old: fail, JPEG, ".old"',
      'good.jpg: pass, JPEG',
    ])
    expect(left).toMatchObject({ other: 1 })
  } finally {
    await rm(folder, { recursive: true })
  }
})
