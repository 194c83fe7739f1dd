import { mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Ajv } from 'ajv'
import sharp from 'sharp'
import { beforeAll, describe, expect, test } from 'vitest'
import { measure } from '../../src/measure/measure.ts'
import { GROUPS } from '../../src/measure/schema/measurements.ts'

const GOOD = 'examples/osprey-lane/delivery-clean/web/Nair-Priya_15388.jpg'

describe('what is measured fits schemas/measurements.schema.json', () => {
  let folder = ''
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'measure-'))
    const good = await readFile(GOOD)
    await writeFile(join(folder, 'good.jpg'), good)
    await writeFile(join(folder, 'cut.jpg'), good.subarray(0, good.length / 2))
    await writeFile(join(folder, 'empty.jpg'), '')
    await sharp({ create: { width: 300, height: 400, channels: 3, background: '#eee' } })
      .png()
      .toFile(join(folder, 'nobody.png'))
  })

  test.each([
    ['good.jpg', GROUPS],
    ['good.jpg', ['focus']],
    ['good.jpg', ['file']],
    ['nobody.png', GROUPS],
    ['cut.jpg', GROUPS],
    ['cut.jpg', ['focus']],
    ['empty.jpg', GROUPS],
    ['missing.jpg', GROUPS],
  ] as const)('%s, groups %j', async (file, groups) => {
    const fits = new Ajv({ strict: false }).compile(
      JSON.parse(await readFile('schemas/measurements.schema.json', 'utf8')),
    )
    const measured = await measure({ path: join(folder, file), file }, groups)
    expect(fits([JSON.parse(JSON.stringify(measured))]), JSON.stringify(fits.errors)).toBe(true)
  })
})
