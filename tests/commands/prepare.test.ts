import { appendFileSync } from 'node:fs'
import { appendFile, copyFile, mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import type { Host } from '../../src/checking/host.ts'
import { run } from '../../src/commands/run.ts'
import type { Prepared } from '../../src/prepare/ledger/prepared.ts'
import { hashOf } from '../../src/prepare/work.ts'
import { studio } from '../prepare/studio.ts'
import { recordingHost } from './host.ts'

let folder = ''
let masters: string[] = []

beforeAll(async () => {
  ;({ folder, masters } = await studio(1))
})

const ran = (...argv: string[]) => ranWith({}, ...argv)

async function ranWith(more: Partial<Host>, ...argv: string[]) {
  const { host, stdout, stderr } = recordingHost(folder, { userCache: join(folder, '.cache') })
  const code = await run(argv, { ...host, ...more })
  return { code, stdout: stdout(), stderr: stderr(), said: stdout().replaceAll(/\s+/g, ' ') }
}

const prepare = (...more: string[]) =>
  ran('prepare', 'masters', '--output', 'delivery', '--roster', 'staff.csv', ...more)

async function filesBelow(path: string): Promise<string[]> {
  const all = await readdir(path, { recursive: true, withFileTypes: true }).catch(() => [])
  return all
    .filter((one) => one.isFile())
    .map(({ parentPath, name }) => join(parentPath, name))
    .sort()
}

async function ledger(): Promise<Prepared> {
  return JSON.parse(await readFile(join(folder, 'delivery-prepared.json'), 'utf8'))
}

describe.sequential('the master of one person', () => {
  test('--plan tells what would be made and writes nothing', async () => {
    const { code, stdout } = await prepare('--plan', '--format', 'json')
    const plan = JSON.parse(stdout)
    expect(code).toBe(0)
    expect(plan.files).toHaveLength(3)
    expect(plan.files[0]).toMatchObject({ format: 'jpeg', colorSpace: 'sRGB', widthPx: 320, heightPx: 400 })
    expect(await readdir(folder)).not.toContain('delivery')
  })

  test('--report writes a page that shows the master with a box for each crop', async () => {
    const { code } = await prepare('--plan', '--report', 'crops.html')
    expect(code).toBe(0)
    const page = await readFile(join(folder, 'crops.html'), 'utf8')
    await rm(join(folder, 'crops.html'))
    expect(page).toContain('3 files would be made.')
    expect(page.match(/<image /g)).toHaveLength(1)
    expect(page).toContain('Drawn on it: the crops for print, web, badge.')
    // The crop as the plan tells it, on a master of 640 x 720 px whose picture is as large as 400 px allow.
    const [, left, top] = /crop \d+ x \d+ px at left (\d+), top (\d+)/.exec(page) ?? []
    const scale = 400 / 720
    const corner = [left, top].map((at) => Math.round(10 * Number(at) * scale) / 10).join()
    expect(page).toMatch(new RegExp(`<polygon class="box crop-1" points="${corner} `))
  })

  test('one command makes all files; check passes them; the masters stay as they are', async () => {
    const before = await Promise.all(masters.map(async (path) => hashOf(await readFile(path))))
    const { code, stdout, stderr } = await prepare()
    expect(stderr).toBe('')
    expect(stdout).toContain('3 files delivered (3 made now).')
    expect(code).toBe(0)
    const files = await filesBelow(join(folder, 'delivery'))
    expect(files).toHaveLength(3)
    expect(await Promise.all(masters.map(async (path) => hashOf(await readFile(path))))).toEqual(before)
    const check = await ran('check', 'delivery', '--roster', 'staff.csv')
    expect(check.stdout).toMatch(/^PASS {4}3 portraits/)
    for (const file of files) expect((await readFile(file)).includes('SECRET CAMERA')).toBe(false)
    expect((await readdir(folder)).sort()).toEqual([
      '.cache',
      'brand.yaml',
      'delivery',
      'delivery-prepared.json',
      'masters',
      'staff.csv',
    ])
  })

  test('a second run makes nothing anew', async () => {
    const before = await ledger()
    const { code, stdout } = await prepare()
    expect(code).toBe(0)
    expect(stdout).toContain('3 files delivered (0 made now).')
    expect((await ledger()).files.map(({ sha256 }) => sha256)).toEqual(
      before.files.map(({ sha256 }) => sha256),
    )
  })

  // Bytes behind the end of a TIFF change its content and not its picture (TIFF 6.0: everything is found by its offset).
  test('a master that changes while it is prepared is not used; what was made of it before stays, and the next run makes it anew', async () => {
    const [master = ''] = masters
    const [original, before] = [await readFile(master), await ledger()]
    await appendFile(master, 'changed')
    const processes = {
      // A run says who it is when all is measured and nothing made.
      get own() {
        appendFileSync(master, 'in between')
        return 41
      },
      isRunning: () => false,
    }
    const web = [
      'prepare',
      'masters',
      '--output',
      'delivery',
      '--roster',
      'staff.csv',
      '--deliverable',
      'web',
    ]
    const { code, said } = await ranWith({ processes }, ...web)
    expect(code).toBe(1)
    expect(said).toContain('The master has changed since it was measured. Run again.')
    expect(said).toContain('3 files delivered (0 made now) and 1 not made.')
    expect((await ledger()).files).toEqual(before.files.map((file) => ({ ...file, made: 'earlier' })))
    expect((await ran(...web)).stdout).toContain('3 files delivered (1 made now).')
    await writeFile(master, original)
    expect((await ran(...web)).stdout).toContain('3 files delivered (1 made now).')
  })

  test("a file that is not prepare's is not replaced without --replace", async () => {
    const [first = ''] = await filesBelow(join(folder, 'delivery', 'badge'))
    await writeFile(first, 'a letter')
    const refused = await prepare('--deliverable', 'badge')
    expect(refused.code).toBe(1)
    expect(refused.said).toContain('is there already, and is not as prepare has made it.')
    expect(await readFile(first, 'utf8')).toBe('a letter')
    const replaced = await prepare('--replace')
    expect(replaced.stdout).toContain('3 files delivered (1 made now).')
  })

  test('what is unsure is delivered and told, or held back with --strict', async () => {
    const brand = await readFile(join(folder, 'brand.yaml'), 'utf8')
    // Nobody can tell the sharpness of eyes in pictures of 240 to 400 px.
    await writeFile(join(folder, 'sharp.yaml'), `${brand}eye-focus: { max: 2 }\n`)
    const { code, said } = await prepare('--spec', 'sharp.yaml')
    expect(code).toBe(0)
    expect(said).toContain('3 files delivered (0 made now, 3 unsure: check by eye).')
    expect(said).toContain('eye-focus: The edge spread at the sharper eye could not be measured')
    const { files } = await ledger()
    expect(files.map(({ state, reasons, doubts }) => [state, reasons.length, doubts?.length])).toEqual(
      Array.from({ length: 3 }, () => ['delivered', 0, 1]),
    )
    const strict = await prepare('--spec', 'sharp.yaml', '--strict')
    expect(strict.code).toBe(1)
    expect(strict.said).toContain('0 files delivered and 3 held back.')
    await prepare()
  })

  test('a spec that the files no longer meet holds them back, with the reasons; the old spec gives them back', async () => {
    const brand = await readFile(join(folder, 'brand.yaml'), 'utf8')
    await writeFile(
      join(folder, 'strict.yaml'),
      `${brand}background-lightness: { target: 50, tolerance: 2 }\n`,
    )
    const { code } = await prepare('--spec', 'strict.yaml')
    expect(code).toBe(1)
    expect(await filesBelow(join(folder, 'delivery'))).toEqual([])
    expect(await filesBelow(join(folder, 'delivery-held-back'))).toHaveLength(4)
    expect(await readFile(join(folder, 'delivery-held-back', 'reasons.txt'), 'utf8')).toContain(
      'background-lightness: ',
    )
    const again = await prepare()
    expect(again.stdout).toContain('3 files delivered (0 made now).')
    expect(await readdir(folder)).not.toContain('delivery-held-back')
  })
})

describe('a person must say', () => {
  test('whom a master shows that no name and no pick tells', async () => {
    const odd = join(folder, 'odd')
    await mkdir(odd)
    await copyFile(masters[0] ?? '', join(odd, 'IMG_1.tif'))
    const { code, said } = await ran('prepare', 'odd', '--output', 'other', '--roster', 'staff.csv')
    expect(code).toBe(2)
    expect(said).toContain('Who is in "IMG_1.tif"? Its name does not read "{staff-id}.tif". Rename it.')
  })

  test('what the command line means', async () => {
    const none = await ran('prepare', 'masters', '--output', 'masters/out')
    expect(none).toMatchObject({
      code: 2,
      stderr: expect.stringContaining('must lie apart from the masters'),
    })
    const file = await ran('prepare', 'masters', '--output', 'staff.csv')
    expect(file.stderr).toBe('--output staff.csv is a file; name a folder for the delivery.\n')
    const unknown = await prepare('--deliverable', 'poster')
    expect(unknown.stderr).toBe('--deliverable poster is not in the spec; choose print, web or badge.\n')
  })
})
