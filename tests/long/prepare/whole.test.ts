import { readFile, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { run } from '../../../src/commands/run.ts'
import type { Report } from '../../../src/judge/report.ts'
import type { Prepared } from '../../../src/prepare/ledger/prepared.ts'
import { hashOf } from '../../../src/prepare/work.ts'
import { recordingHost } from '../../commands/host.ts'
import { studio } from '../../prepare/studio.ts'

const PEOPLE = 20
const BADGE_BYTES = 60_000

const BRAND = `brand: Osprey Lane Veterinary Group
version: 1
naming:
  pattern: "{deliverable}/{family}-{given}_{staff-id}.{ext}"
  fields: { staff-id: { digits: 5 } }
masters: { naming: "{staff-id}.tif" }
prepare:
  metadata:
    creator: Studio Kestrel
    copyright: © 2026 Osprey Lane Veterinary Group
    person-shown: "{given} {family}"
    alt-text: "Portrait of {given} {family}"
deliverables:
  print:
    aspect-ratio: "4:5"
    pixel-size: { width: 800, height: 1000 }
    file-format: { allow: [jpeg] }
    resolution: { ppi: 300 }
    compression: { quality: { min: 90 }, subsampling: "4:4:4" }
  web:
    aspect-ratio: "1:1"
    pixel-size: { width: 600, height: 600 }
    file-format: { allow: [webp] }
  badge:
    aspect-ratio: "3:4"
    pixel-size: { width: 600, height: 800 }
    file-format: { allow: [jpeg] }
    file-size: { max: 60 kB }
  intranet:
    aspect-ratio: "4:5"
    pixel-size: { width: 480, height: 600 }
    file-format: { allow: [jpeg] }
    color-space: gray
color-space: sRGB
bit-depth: 8
orientation: upright
metadata-required: { creator: true, copyright: Osprey Lane Veterinary Group, person-shown: "{given} {family}", alt-text: true }
metadata-forbidden: [location, camera-serial, lens-serial, camera-model, software, preview]
stale-preview: true
headroom: { min: 3, max: 17 }
eye-line: { min: 34, max: 44 }
head-height: { min: 42, max: 54 }
centering: { max: 2 }
roster: staff.csv
variants: all
`

describe.sequential('20 masters of 16 bits in four deliverables', () => {
  let folder = ''
  let masters: string[] = []
  let prepared: Prepared

  const ran = async (...argv: string[]) => {
    const { host, stdout, stderr } = recordingHost(folder, { userCache: join(folder, '.cache') })
    const code = await run(argv, host)
    return { code, stdout: stdout(), stderr: stderr() }
  }

  beforeAll(async () => {
    ;({ folder, masters } = await studio(PEOPLE, { brand: BRAND, size: { widthPx: 1280, heightPx: 1440 } }))
    prepared = JSON.parse(
      (await ran('prepare', 'masters', '--output', 'delivery', '--format', 'json')).stdout,
    )
  })

  test('one command makes 80 files, and holds none back', () => {
    expect(prepared.unmade).toEqual([])
    expect(prepared.files.filter(({ state }) => state !== 'delivered')).toEqual([])
    expect(prepared.files).toHaveLength(80)
  })

  test('check passes all of them, and the eye lines of each deliverable scatter by 0.2 % at most', async () => {
    const { code, stdout } = await ran('check', 'delivery', '--format', 'json')
    const report: Report = JSON.parse(stdout)
    expect({ code, totals: report.totals }).toMatchObject({ code: 0, totals: { files: 80, pass: 80 } })
    for (const deliverable of ['print', 'web', 'badge', 'intranet']) {
      const lines = report.files.flatMap(({ deliverable: own, measurements: { head } }) =>
        own === deliverable && head?.eyeLinePct ? [head.eyeLinePct] : [],
      )
      expect(lines).toHaveLength(PEOPLE)
      const mean = lines.reduce((sum, line) => sum + line, 0) / PEOPLE
      expect(Math.hypot(...lines.map((line) => line - mean)) / Math.sqrt(PEOPLE)).toBeLessThanOrEqual(0.2)
      expect(Math.abs(mean - 39)).toBeLessThanOrEqual(0.2)
    }
  })

  test('badges are within their size, and nothing forbidden is left in any byte', async () => {
    for (const { file, deliverable } of prepared.files) {
      const path = join(folder, 'delivery', file)
      const bytes = await readFile(path)
      expect(bytes.includes('SECRET CAMERA')).toBe(false)
      expect(deliverable === 'badge' ? (await stat(path)).size : 0).toBeLessThanOrEqual(BADGE_BYTES)
    }
  })

  test('no master has changed', async () => {
    const recorded = new Map(prepared.files.map(({ master }) => [master.file, master.sha256]))
    for (const path of masters)
      expect(recorded.get(path.slice(join(folder, 'masters').length + 1))).toBe(hashOf(await readFile(path)))
  })
})
