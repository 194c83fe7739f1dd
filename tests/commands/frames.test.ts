import { cp, mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { Ajv } from 'ajv'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { run } from '../../src/commands/run.ts'
import { CardReport } from '../../src/session/card-report.ts'
import { tiffFile } from '../measure/file/raw/tiff-file.ts'
import { recordingHost } from './host.ts'

const CLEAN = resolve('examples/osprey-lane/delivery-clean/print')
const SPEC = `brand: Osprey Lane Veterinary Group
version: 1
naming: { pattern: "{family}-{given}.jpg" }
headroom: { min: 3, max: 30 }
# Left to export, and so not asked of frames.
file-format: { allow: [webp] }
deliverables:
  print: { aspect-ratio: "4:5", pixel-size: { width: 600, height: 750 } }
  poster: { pixel-size: { height: { min: 9000 } } }
`
let folder: string

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'frames '))
  await mkdir(join(folder, 'card/day 1'), { recursive: true })
  await writeFile(join(folder, 'poster.yaml'), SPEC)
  await writeFile(join(folder, 'brand.yaml'), SPEC.replace(/ {2}poster.*\n/, ''))
  await writeFile(join(folder, 'staff.csv'), 'family,given,pick\nLund,Bjørn,0012\nFarouk,Layla,\n')
  await cp(join(CLEAN, 'Lund-Bjørn_00990.jpg'), join(folder, 'card/day 1/IMG_0012.jpg'))
  await cp(join(CLEAN, 'Farouk-Layla_11904.jpg'), join(folder, 'card/Farouk-Layla.jpg'))
  const whole = await readFile(join(CLEAN, 'Lund-Bjørn_00990.jpg'))
  await writeFile(join(folder, 'card/day 1/IMG_0013.jpg'), whole.subarray(0, whole.length / 2))
  await writeFile(join(folder, 'card/IMG_0014.jpg'), whole.subarray(0, whole.length / 3))
})
afterAll(() => rm(folder, { recursive: true }))

async function frames(...args: readonly string[]) {
  const { host, stdout, stderr } = recordingHost(folder, { userCache: join(folder, 'cache') })
  const code = await run(['check', '--frames', ...args], host)
  return { code, stdout: stdout(), stderr: stderr() }
}
async function reported(...args: readonly string[]): Promise<{ code: number; report: CardReport }> {
  const { code, stdout } = await frames('--format', 'json', ...args)
  const report: CardReport = JSON.parse(stdout)
  expect(new Ajv({ allowUnionTypes: true }).compile(CardReport)(report)).toBe(true)
  return { code, report }
}

test('each sitter, by name or by folder, with the best frame first; a pick marks its frame', async () => {
  const { code, report } = await reported('--spec', 'brand.yaml', '--roster', 'staff.csv', 'card')
  expect(
    report.sitters.map(({ sitter, frames }) => [
      sitter,
      frames.map(({ file, verdict, pickedBy }) => [file, verdict, ...pickedBy]),
    ]),
  ).toEqual([
    ['Farouk Layla', [['Farouk-Layla.jpg', 'pass']]],
    [
      'day 1',
      [
        ['day 1/IMG_0012.jpg', 'pass', 'Lund Bjørn'],
        ['day 1/IMG_0013.jpg', 'fail'],
      ],
    ],
    [null, [['IMG_0014.jpg', 'fail']]],
  ])
  expect(code).toBe(1)
})

test('a raw file is judged by the JPEG that it embeds, at the size of the sensor, and is one frame with the JPEG beside it', async () => {
  await mkdir(join(folder, 'raws'))
  const jpeg = await readFile(join(CLEAN, 'Farouk-Layla_11904.jpg'))
  // TIFF 6.0, tags 256, 257 and 513; DNG, tag 50706.
  const raw = tiffFile({ 256: 9600, 257: 12_000, 513: jpeg, 50706: 1 })
  await writeFile(join(folder, 'raws', 'IMG_1.DNG'), raw)
  await writeFile(join(folder, 'raws', 'IMG_1.JPG'), jpeg)
  await writeFile(join(folder, 'raws', 'IMG_2.DNG'), raw)
  const { report } = await reported('--spec', 'poster.yaml', 'raws')
  const frames = report.sitters.flatMap((sitter) => sitter.frames)
  expect(
    frames.map(({ file, verdict, size, otherFiles }) => [file, verdict, size?.heightPx, otherFiles]),
  ).toEqual([
    ['IMG_2.DNG', 'pass', 12_000, []],
    ['IMG_1.JPG', 'fail', 1500, ['IMG_1.DNG']],
  ])
})

describe('exit codes', () => {
  test('0 when every sitter has a usable frame', async () => {
    expect((await reported('--spec', 'brand.yaml', 'card/day 1')).code).toBe(0)
  })
  test('1 when one has none', async () => {
    const { code, stdout } = await frames('--spec', 'poster.yaml', 'card/Farouk-Layla.jpg')
    expect(stdout).toContain('There is no room for the crop for poster.')
    expect(code).toBe(1)
  })
  test('2 when nothing could be judged', async () => {
    expect((await frames('--spec', 'brand.yaml', 'cards')).code).toBe(2)
  })
})

describe('what makes no sense is refused', () => {
  test.each([
    [['--format', 'junit'], '--frames has no format junit; choose table, json, markdown or csv.'],
    [['--partial'], '--frames and --partial cannot be combined; leave one out.'],
    [['--shard', '1/2'], '--frames and --shard cannot be combined; leave one out.'],
  ])('%j', async (args, sentence) => {
    const { code, stderr } = await frames('--spec', 'brand.yaml', ...args, 'card')
    expect(stderr).toBe(`${sentence}\n`)
    expect(code).toBe(2)
  })
})
