import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { run } from '../../src/commands/run.ts'
import type { Prepared } from '../../src/prepare/ledger/prepared.ts'
import { recordingHost } from '../commands/host.ts'

const brand = (intent: string) => `brand: Osprey Lane Veterinary Group
version: 1
naming: { pattern: "{staff-id}.jpg", fields: { staff-id: { digits: 5 } } }
masters: { naming: "{staff-id}.tif" }
prepare: { intent: ${intent} }
color-space: sRGB
one-face: false
`

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'intent-'))
  await mkdir(join(folder, 'masters'))
  const picture = sharp({ create: { width: 60, height: 80, channels: 3, background: '#c08060' } })
  // A profile that converts by tables comes with the picture library.
  const separated = picture.clone().withIccProfile('cmyk').toColourspace('cmyk').tiff()
  await separated.toFile(join(folder, 'masters', '10001.tif'))
  await picture
    .withIccProfile('srgb')
    .tiff()
    .toFile(join(folder, 'masters', '10002.tif'))
})
afterAll(() => rm(folder, { recursive: true }))

async function prepared(intent: string) {
  await writeFile(join(folder, 'brand.yaml'), brand(intent))
  const { host, stdout } = recordingHost(folder)
  const code = await run(['prepare', 'masters', '--output', intent, '--no-cache'], host)
  const { files, unmade }: Prepared = JSON.parse(
    await readFile(join(folder, `${intent}-prepared.json`), 'utf8'),
  )
  return { code, files, unmade, said: stdout().replaceAll(/\s+/g, ' ') }
}

test('a master whose profile has tables is not made relative colorimetric, and the reason is told; others are', async () => {
  const { code, files, unmade, said } = await prepared('relative-colorimetric')
  expect(code).toBe(1)
  expect(files.map(({ file }) => file)).toEqual(['10002.jpg'])
  expect(unmade).toMatchObject([{ master: '10001.tif', kind: 'refused' }])
  expect(said).toContain(
    'Its profile converts by tables, which is done perceptually only, and the spec asks for relative-colorimetric.',
  )
})

test('perceptually it is converted, and that is told', async () => {
  const { code, files, said } = await prepared('perceptual')
  expect(code).toBe(0)
  expect(files.map(({ making }) => making.outOfGamutPct)).toEqual([null, 0])
  expect(said).toContain("converted perceptually by its profile's tables")
})
