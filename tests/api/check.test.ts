import { copyFile, mkdir, mkdtemp, readdir, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { check, loadSpec, measure } from '../../src/index.ts'

const PORTRAIT = 'examples/osprey-lane/delivery-clean/web'
const SPEC = `
brand: Osprey Lane
version: 1
naming: { pattern: "{family}.jpg" }
pixel-size: { width: 600, height: 600 }
file-size: { max: 10 kB }
one-face: false
roster: staff.csv
waivers: waivers.yaml
`
const WAIVERS = `
- rule: file-size
  file: Quist.jpg
  reason: Agreed on the phone.
  approved-by: E. Marlow
  until: "2027-03-31"
`

let cwd: string
beforeAll(async () => {
  cwd = await mkdtemp(join(tmpdir(), 'api-'))
  await mkdir(join(cwd, 'delivery'))
  const [file = ''] = await readdir(PORTRAIT)
  await copyFile(join(PORTRAIT, file), join(cwd, 'delivery/Quist.jpg'))
  await writeFile(join(cwd, 'delivery/Broken.jpg'), 'no picture')
  await writeFile(join(cwd, 'brand.yaml'), SPEC)
  await writeFile(join(cwd, 'staff.csv'), 'family\nQuist\nBroken\nAbsent\n')
  await writeFile(join(cwd, 'waivers.yaml'), WAIVERS)
})
const options = () => ({ cwd, workers: 0 })

test('what is measured, a fault included, with the progress', async () => {
  const seen: number[] = []
  const progress = ({ done }: { done: number }) => seen.push(done)
  const measured = await measure(['delivery'], { ...options(), groups: ['file'], progress })
  expect(measured).toMatchObject([
    { file: 'Broken.jpg', fault: { kind: 'not-a-picture' } },
    { file: 'Quist.jpg', fault: null, widthPx: 600, heightPx: 600 },
  ])
  expect(seen).toEqual([1, 2])
})

test('the report, with roster and exceptions from beside the spec', async () => {
  const spec = await loadSpec('brand.yaml', { cwd })
  const report = await check(['delivery'], { ...options(), spec, at: new Date('2027-03-31') })
  const sizes = (of: typeof report) =>
    of.files.map(({ file, outcomes }) => [
      file,
      outcomes.find(({ rule }) => rule === 'file-size')?.waiver?.until,
    ])
  expect(sizes(report)).toEqual([
    ['Broken.jpg', undefined],
    ['Quist.jpg', '2027-03-31'],
  ])
  expect(report.verdict).toBe('fail')
  expect(report.delivery.matrix?.rows.map(({ person, cells }) => [person, cells[0]?.state])).toEqual([
    ['Quist', 'pass'],
    ['Broken', 'fail'],
    ['Absent', 'missing'],
  ])
  const later = await check(['delivery'], { ...options(), spec, at: new Date('2027-04-01') })
  expect(sizes(later)[1]).toEqual(['Quist.jpg', undefined])
})

describe('when nothing can be judged, an error says why', () => {
  test('a path that is not there', async () => {
    await expect(measure(['nowhere'], options())).rejects.toThrow('There is nothing at nowhere.')
  })

  test('a list with a problem, one that is not there, and one outside the folder of the spec', async () => {
    const spec = await loadSpec('brand.yaml', { cwd })
    await writeFile(join(cwd, 'twice.csv'), 'family\nQuist\nQuist\n')
    const by = (roster: string) => check(['delivery'], { ...options(), spec, roster })
    await expect(by('twice.csv')).rejects.toThrow(/^twice\.csv:3: /)
    await expect(by('none.csv')).rejects.toThrow('The roster file none.csv is not there.')
    const outside = { ...spec, waivers: '../waivers.yaml' }
    await expect(check(['delivery'], { ...options(), spec: outside })).rejects.toThrow(
      "leads out of the spec's folder",
    )
  })

  test('a signal that is aborted', async () => {
    const signal = AbortSignal.abort(new Error('Enough.'))
    await expect(measure(['delivery'], { ...options(), signal })).rejects.toThrow('Enough.')
  })
})
