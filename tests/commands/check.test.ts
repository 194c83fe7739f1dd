import { mkdir, mkdtemp, readdir, readFile, truncate, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { beforeAll, describe, expect, test } from 'vitest'
import { run } from '../../src/commands/run.ts'
import type { Report } from '../../src/judge/report.ts'
import { recordingHost } from './host.ts'

const EXAMPLE = 'examples/osprey-lane'
const GOOD = `${EXAMPLE}/delivery-clean/web/Nair-Priya_15388.jpg`

/** Runs a command line as piped, in a folder. */
async function transcript(
  argv: readonly string[],
  cwd = process.cwd(),
  terminal: Parameters<typeof recordingHost>[1] = {},
) {
  const { host, stdout, stderr } = recordingHost(cwd, terminal)
  const code = await run(argv, host)
  return { code, stdout: stdout(), stderr: stderr() }
}

describe('a folder with one of each bad file, and a good portrait', () => {
  let folder = ''
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'bad-files-'))
    const good = await readFile(GOOD)
    const put = (name: string, content: string | Buffer) => writeFile(join(folder, name), content)
    await put('good.jpg', good)
    await put('empty.jpg', '')
    await put(
      'pointer.jpg',
      `version https://git-lfs.github.com/spec/v1\noid sha256:${'0'.repeat(64)}\nsize 123456\n`,
    )
    await put(
      'drawing.jpg',
      '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><rect width="9" height="9"/></svg>',
    )
    await put('letter.jpg', 'Dear marketing, please find the portraits attached.\n')
    // ISO/IEC 14496-12: a box of 24 bytes, type ftyp, major brand heic.
    await put('phone.jpg', Buffer.from('00000018667479706865696300000000686569636d696631', 'hex'))
    await put('cut.jpg', good)
    await truncate(join(folder, 'cut.jpg'), Math.floor(good.length * 0.6))
    await put(
      'brand.yaml',
      'brand: Osprey Lane Veterinary Group\nversion: 1\npixel-size: { width: 600, height: 600 }\n',
    )
  })

  test('gives a failed row each, with its own sentence, and exit code 1', async () => {
    const { code, stdout, stderr } = await transcript(['check', '.'], folder)
    expect(code).toBe(1)
    expect(stderr).toBe('')
    expect(stdout).toMatchInlineSnapshot(`
      "FAIL    7 portraits: 1 pass, 6 fail, 0 unsure; 0 warnings.
      Osprey Lane Veterinary Group, brand spec version 1 (brand.yaml)
      Not checked: 1 document or sidecar.

      Rules missed, by number of portraits
        intact       3 of 4
        file-format  3 of 5

      6 of 7 portraits need work

        cut.jpg
          fail    intact       The file is truncated: the picture ends before its last
                               row; the spec asks for a complete picture.
                               Fix: The copy or upload did not finish. Export or copy
                               it again from the original.

        drawing.jpg
          fail    file-format  The content is SVG, a drawing or a document, not a
                               photograph; the spec asks for JPEG, PNG, TIFF, WebP or
                               AVIF.
                               Fix: Deliver the photograph itself, exported as JPEG,
                               PNG, TIFF, WebP or AVIF.

        empty.jpg
          fail    intact       The file is empty (0 bytes); the spec asks for a
                               complete picture.
                               Fix: The copy or upload did not finish. Export or copy
                               it again from the original.

        letter.jpg
          fail    file-format  The content is not a picture; the spec asks for JPEG,
                               PNG, TIFF, WebP or AVIF.
                               Fix: Deliver the exported picture itself, or remove
                               this file from the delivery.

        phone.jpg
          fail    file-format  The file is HEIC, which portrait-gate does not decode;
                               the spec asks for JPEG, PNG, TIFF, WebP or AVIF.
                               Fix: Ask for JPEG, PNG, TIFF, WebP or AVIF.

        pointer.jpg
          fail    intact       The checkout has no LFS content: the file is a Git LFS
                               pointer and not the picture; the spec asks for a
                               complete picture.
                               Fix: Run git lfs pull, or set lfs: true in the checkout
                               step.

      FAIL    7 portraits: 1 pass, 6 fail, 0 unsure; 0 warnings.
      "
    `)
  })

  test('measures it too, each with its fault', async () => {
    const { code, stdout } = await transcript(['measure', '.'], folder)
    expect(code).toBe(1)
    const faults = (JSON.parse(stdout) as Report['files'][number]['measurements'][]).map(
      ({ file, fault }) => [file, fault?.kind],
    )
    expect(Object.fromEntries(faults)).toEqual({
      'cut.jpg': 'truncated',
      'drawing.jpg': 'format',
      'empty.jpg': 'empty',
      'good.jpg': undefined,
      'letter.jpg': 'not-a-picture',
      'phone.jpg': 'format',
      'pointer.jpg': 'lfs-pointer',
    })
  })
})

describe('trouble that the user can fix', () => {
  test.each([
    [
      'a spec with a misspelled key',
      'brand: Osprey Lane\nversion: 1\nheadrom: { min: 6 }\n',
      /brand\.yaml:3:1: .*headrom.*headroom/,
    ],
    [
      'an unquoted color',
      'brand: Osprey Lane\nversion: 1\nbackground-tint: { color: #fff, tolerance: 2 }\n',
      /brand\.yaml:3:\d+: .*#/,
    ],
    ['a tab', 'brand: Osprey Lane\nversion: 1\nheadroom:\n\tmin: 6\n', /brand\.yaml:4:1: .*tab/i],
  ])('%s: exit code 2 and the line', async (_, spec, says) => {
    const folder = await mkdtemp(join(tmpdir(), 'bad-spec-'))
    await writeFile(join(folder, 'brand.yaml'), spec)
    const { code, stdout, stderr } = await transcript(['check', '.'], folder)
    expect(code).toBe(2)
    expect(stdout).toBe('')
    expect(stderr).toMatch(says)
  })

  test.each([
    ['no spec', ['check', '.'], /no spec at brand\.yaml.*portrait-gate init/],
    ['no pictures', ['check', '.', '--spec', 'spec.yaml'], /No portraits were found/],
    ['a path that is not there', ['check', 'nowhere', '--spec', 'spec.yaml'], /nothing at nowhere/],
    ['an unknown format', ['check', '--format', 'pdf'], /--format pdf is unknown; choose table/],
    ['an unknown command', ['chekc'], /no command chekc; did you mean check/],
    ['an unknown option', ['check', '--sprec', 'x'], /unknown option '--sprec'/],
    ['a file whose name begins with a dash', ['check', '-rf.jpg'], /If that is a file, write \.\/-rf\.jpg\n/],
    [
      'two formats printed',
      ['check', '--format', 'json', '--format', 'table'],
      /Only one format can be printed/,
    ],
    [
      'an output with no format',
      ['check', '--output', 'report'],
      /--output report: put a --format before it/,
    ],
  ])('%s: exit code 2 and a sentence', async (_, argv, says) => {
    const folder = await mkdtemp(join(tmpdir(), 'trouble-'))
    await writeFile(join(folder, 'spec.yaml'), 'brand: Osprey Lane\nversion: 1\n')
    const { code, stdout, stderr } = await transcript(argv, folder)
    expect(code).toBe(2)
    expect(stdout).toBe('')
    expect(stderr).toMatch(says)
    expect(stderr).not.toMatch(/\n {4}at /)
  })
})

describe('reports', () => {
  let folder = ''
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'reports-'))
    await mkdir(join(folder, 'web'))
    await writeFile(join(folder, 'web', 'Nair-Priya_15388.jpg'), await readFile(GOOD))
    // One portrait is no whole delivery: the spec without its roster, variants and waivers.
    const spec = await readFile(`${EXAMPLE}/brand.yaml`, 'utf8')
    await writeFile(join(folder, 'brand.yaml'), spec.replace(/^(?:roster|variants|waivers): .*$/gm, ''))
  })

  test('go to files and to standard output in one run, and nothing half-written stays behind', async () => {
    const { code, stdout } = await transcript(
      ['check', '.', '--format', 'json', '--output', 'report.json', '--output', 'summary.md'],
      folder,
    )
    expect(code).toBe(0)
    expect(stdout).toContain('PASS    1 portrait: 1 pass')
    expect((JSON.parse(await readFile(join(folder, 'report.json'), 'utf8')) as Report).verdict).toBe('pass')
    expect(await readFile(join(folder, 'summary.md'), 'utf8')).toContain('Osprey Lane Veterinary Group')
    expect((await readdir(folder)).sort()).toEqual(['brand.yaml', 'report.json', 'summary.md', 'web'])
  })

  test('a stop leaves no report', async () => {
    const { host, stop } = recordingHost(folder)
    stop()
    await expect(run(['check', '.', '--output', 'stopped.json'], host)).rejects.toThrow()
    expect(await readdir(folder)).not.toContain('stopped.json')
  })

  test('a report that cannot be written is exit code 2, with nothing printed as if all were well', async () => {
    const { code, stdout, stderr } = await transcript(
      ['check', '.', '--output', 'no/such/folder/report.json'],
      folder,
    )
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' })
    expect(stderr).toMatch(/no\/such\/folder\/report\.json could not be written/)
  })

  test('colors and progress only on a terminal; NO_COLOR is honored', async () => {
    const piped = await transcript(['check', '.'], folder)
    expect(piped.stdout + piped.stderr).not.toContain('\u001b')
    const terminal = await transcript(['check', '.'], folder, { isTTY: true, columns: 80 })
    expect(terminal.stdout).toContain('\u001b[')
    expect(terminal.stderr).toContain('Measured 1 of 1')
    const plain = await transcript(['check', '.'], folder, {
      isTTY: true,
      columns: 80,
      env: { NO_COLOR: '1' },
    })
    expect(plain.stdout).not.toContain('\u001b')
  })

  test('--strict fails what is unsure', async () => {
    const blank = await mkdtemp(join(tmpdir(), 'unsure-'))
    await sharp({ create: { width: 200, height: 200, channels: 3, background: '#eee' } })
      .jpeg()
      .toFile(join(blank, 'nobody.jpg'))
    const spec = 'brand: Osprey Lane\nversion: 1\none-face: false\nheadroom: { min: 6 }\n'
    await writeFile(join(blank, 'brand.yaml'), spec)
    const { code, stdout } = await transcript(['check', '.'], blank)
    expect(stdout).toContain('1 of 1 portrait is unsure')
    expect(code).toBe(0)
    expect((await transcript(['check', '.', '--strict'], blank)).code).toBe(1)
  })
})

test('the help of a command and of the whole', async () => {
  expect((await transcript(['--version'])).stdout).toMatch(/^\d+\.\d+\.\d+\n$/)
  expect(await transcript(['--help'])).toMatchObject({ code: 0, stdout: expect.stringContaining('check') })
  expect(await transcript(['check', '--help'])).toMatchObject({
    code: 0,
    stdout: expect.stringContaining('--strict'),
  })
  expect((await transcript([])).code).toBe(2)
})
