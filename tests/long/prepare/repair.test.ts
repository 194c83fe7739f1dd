import { cp, mkdir, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { SITTERS } from '../../../examples/drawing/sitters.ts'
import { pictureOf } from '../../../examples/osprey-lane/house-style.ts'
import { run } from '../../../src/commands/run.ts'
import type { Report } from '../../../src/judge/report.ts'
import type { Prepared } from '../../../src/prepare/ledger/prepared.ts'
import { recordingHost } from '../../commands/host.ts'
import { drawnPortrait } from '../../drawn.ts'

const EXAMPLE = join('examples', 'osprey-lane')
const FAULTY = [
  'print/Castelanos-Inés_10233.jpg',
  'web/Castellanos-Inés_10233.jpg',
  'print/Farouk-Layla_11904.jpg',
  'web/Farouk-Layla_11904.jpg',
  'print/Lund-Bjørn_00990.jpg',
  'web/Lund-Bjørn_00990.jpg',
  'print/Mokoena-Thandi_15120.jpg',
  'web/Mokoena-Thandi_15120.jpg',
]
/** As the camera named their frames, in the order of the alphabet. */
const FRAMES = { '10233': 'OSL_0101', '11904': 'OSL_0102', '00990': 'OSL_0103', '15120': 'OSL_0104' }

const PREPARE = `
masters: { naming: "{staff-id}.tif" }
prepare:
  metadata:
    creator: Osprey Lane in-house studio
    copyright: Osprey Lane Veterinary Group
    person-shown: "{given} {family}"
    alt-text: "Portrait of {given} {family}"
`

/**
 * Four people of the example's faulty delivery: a name misspelled, a file mirrored, cut off, in another format or crop, retouched to excess, two
 * people swapped in their web files.
 */
describe.sequential('a faulty delivery', () => {
  let folder = ''
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'repair-'))
    await writeFile(
      join(folder, 'brand.yaml'),
      (await readFile(join(EXAMPLE, 'brand.yaml'), 'utf8')) + PREPARE,
    )
    await cp(join(EXAMPLE, 'waivers.yaml'), join(folder, 'waivers.yaml'))
    const staff = (await readFile(join(EXAMPLE, 'staff.csv'), 'utf8')).split('\n')
    const rows = staff.filter(
      (row, index) => index === 0 || Object.keys(FRAMES).some((id) => row.includes(id)),
    )
    await writeFile(join(folder, 'staff.csv'), `${rows.join('\n')}\n`)
    for (const file of FAULTY) {
      await mkdir(dirname(join(folder, 'delivery', file)), { recursive: true })
      await cp(join(EXAMPLE, 'delivery-faulty', file), join(folder, 'delivery', file))
    }
    await mkdir(join(folder, 'masters'))
    for (const [staffId, frame] of Object.entries(FRAMES)) {
      const sitter = SITTERS.find((one) => one.staffId === staffId)
      if (!sitter) throw new Error(`Nobody has ${staffId}.`)
      const { pixels, widthPx: width, heightPx: height } = await drawnPortrait(sitter.look, pictureOf(sitter))
      const picture = sharp(pixels, { raw: { width, height, channels: 3 } })
      await picture.tiff({ compression: 'lzw' }).toFile(join(folder, 'masters', `${frame}.tif`))
    }
  })
  afterAll(() => rm(folder, { recursive: true, force: true }))

  const ran = async (...argv: string[]) => {
    const { host, stdout, stderr } = recordingHost(folder, { userCache: join(folder, '.cache') })
    const code = await run([...argv, '--format', 'json'], host)
    return { code, stdout: stdout(), stderr: stderr() }
  }
  const reportOf = async (...argv: string[]): Promise<Report> =>
    JSON.parse((await ran('check', ...argv)).stdout)

  test('no file of it passes', async () => {
    const { totals } = await reportOf('delivery')
    expect(totals).toMatchObject({ files: FAULTY.length, pass: 0 })
  })

  test('masters that are named as the camera did are told by their frames; those of the people swapped are asked about', async () => {
    const plan = JSON.parse(
      (await ran('prepare', 'delivery', '--from', 'masters', '--output', 'new', '--plan')).stdout,
    )
    const made = plan.files.map(({ file, master }: { file: string; master: string }) => [file, master])
    expect(made).toEqual([
      ['print/Castellanos-Inés_10233.jpg', 'OSL_0101.tif'],
      ['web/Castellanos-Inés_10233.jpg', 'OSL_0101.tif'],
    ])
    const asked = new Map(
      plan.unmade.map(({ master, reason }: Prepared['unmade'][number]) => [master, reason]),
    )
    // Of her files one is cut off, and the forehead of the other is burnt out.
    expect(asked.get('OSL_0102.tif')).toBe(
      'Who is in "OSL_0102.tif"? Its name does not read "{staff-id}.tif" and no file of the delivery is plainly of its frame. Rename it.',
    )
    expect(asked.get('OSL_0103.tif')).toContain(
      '"web/Mokoena-Thandi_15120.jpg", whose names are of different people',
    )
    expect(asked.get('OSL_0104.tif')).toContain(
      '"web/Lund-Bjørn_00990.jpg", whose names are of different people',
    )
  })

  test('without masters, what a file does not have is told, and no file whose person is in doubt is made', async () => {
    const { code, stdout } = await ran('prepare', 'delivery', '--output', 'same')
    const { files, unmade }: Prepared = JSON.parse(stdout)
    expect(code).toBe(1)
    const delivered = files.filter(({ state }) => state === 'delivered').map(({ file }) => file)
    expect(delivered).toEqual([])
    // Lit unevenly and burnt out, which another crop does not change.
    expect(files.map(({ file }) => file)).toEqual(['print/Farouk-Layla_11904.jpg'])
    expect(files[0]?.reasons.join()).toMatch(/background-unevenness: .*clipping: /)
    expect(unmade.map(({ master, kind }) => [master, kind]).sort()).toEqual(
      FAULTY.filter((file) => file !== 'print/Farouk-Layla_11904.jpg')
        .map((file) => [file, file === 'web/Farouk-Layla_11904.jpg' ? 'refused' : 'question'])
        .sort(),
    )
  })

  test('from its masters all is made anew, and check passes it', async () => {
    for (const [staffId, frame] of Object.entries(FRAMES).slice(1))
      await rename(join(folder, 'masters', `${frame}.tif`), join(folder, 'masters', `${staffId}.tif`))
    const { code, stdout } = await ran('prepare', 'delivery', '--from', 'masters', '--output', 'new')
    const { files, unmade }: Prepared = JSON.parse(stdout)
    expect(unmade).toEqual([])
    expect(
      files.filter(({ state }) => state === 'held-back').map(({ file, reasons }) => [file, reasons]),
    ).toEqual([])
    expect(code).toBe(0)
    const { totals } = await reportOf('new')
    expect(totals).toMatchObject({ files: 8, pass: 8 })
  })
})
