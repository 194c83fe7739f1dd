import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { run } from '../../../src/commands/run.ts'
import type { Report } from '../../../src/judge/report.ts'
import type { Prepared } from '../../../src/prepare/ledger/prepared.ts'
import { recordingHost } from '../../commands/host.ts'
import { studio } from '../../prepare/studio.ts'

const HALOS = 17

const brand = (sharpening: string) => `brand: Osprey Lane Veterinary Group
version: 1
naming: { pattern: "{staff-id}.jpg", fields: { staff-id: { digits: 5 } } }
masters: { naming: "{staff-id}.tif" }
prepare: { ${sharpening} }
aspect-ratio: "4:5"
pixel-size: { width: 1120, height: 1400 }
head-height: { min: 44, max: 56 }
sharpening-halo: { max: ${HALOS} }
eye-focus: { max: 2 }
`

describe('a file that is sharpened as far as its halos allow', () => {
  let folder = ''
  const halo = new Map<string, number>()
  const making = new Map<string, Prepared['files'][number]['making']>()

  const ran = async (...argv: string[]) => {
    const { host, stdout } = recordingHost(folder, { userCache: join(folder, '.cache') })
    await run(argv, host)
    return stdout()
  }

  beforeAll(async () => {
    ;({ folder } = await studio(1, { size: { widthPx: 1500, heightPx: 1750 } }))
    for (const [name, setting] of [
      ['plain', 'tiff: lzw'],
      ['sharp', `sharpening: { halos: ${HALOS} }`],
    ] as const) {
      await writeFile(join(folder, 'brand.yaml'), brand(setting))
      const prepared: Prepared = JSON.parse(
        await ran('prepare', 'masters', '--output', name, '--format', 'json'),
      )
      expect(prepared.files.map(({ state, reasons }) => ({ state, reasons }))).toEqual([
        { state: 'delivered', reasons: [] },
      ])
      for (const file of prepared.files) making.set(name, file.making)
      const report: Report = JSON.parse(await ran('check', name, '--format', 'json'))
      expect(report.totals).toMatchObject({ files: 1, fail: 0 })
      for (const { measurements } of report.files)
        halo.set(name, measurements.finish?.focus?.haloPct ?? Number.NaN)
    }
  })

  test('has higher halos than one that is not, within the limit and near to it', () => {
    expect(making.get('plain')?.sharpening).toBeUndefined()
    expect(making.get('sharp')?.sharpening?.amount).toBeGreaterThan(0.1)
    expect(halo.get('sharp')).toBeGreaterThan((halo.get('plain') ?? Number.NaN) + 2)
    expect(halo.get('sharp')).toBeLessThanOrEqual(HALOS)
    expect(halo.get('sharp')).toBeGreaterThan(HALOS - 4)
  })

  test('is told with its halos as they are measured in the file, to 2 %', () => {
    expect(Math.abs((making.get('sharp')?.sharpening?.haloPct ?? 0) - (halo.get('sharp') ?? 0))).toBeLessThan(
      2,
    )
  })
})
