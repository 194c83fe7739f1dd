import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterAll, afterEach, beforeAll, expect, test, vi } from 'vitest'
import type { Report } from '../../src/judge/report.ts'
import { recordingHost } from './host.ts'

const opened: Buffer[] = []
let run: typeof import('../../src/commands/run.ts').run
// Test files share loaded modules: what counts here is loaded anew, and so is what comes after it.
beforeAll(async () => {
  vi.resetModules()
  vi.doMock('../../src/measure/file/decoder.ts', async () => {
    const { decoder, ...rest } = await vi.importActual<typeof import('../../src/measure/file/decoder.ts')>(
      '../../src/measure/file/decoder.ts',
    )
    const counting = (content: Buffer, ...options: unknown[]) => {
      opened.push(Buffer.from(content))
      return Reflect.apply(decoder, undefined, [content, ...options])
    }
    return { ...rest, decoder: counting }
  })
  run = (await import('../../src/commands/run.ts')).run
})
afterAll(() => {
  vi.doUnmock('../../src/measure/file/decoder.ts')
  vi.resetModules()
})

const FORMATS = ['jpeg', 'png', 'tiff', 'webp', 'avif'] as const
let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'refused-'))
  for (const name of ['print', 'web']) await mkdir(join(folder, name))
  const picture = sharp({ create: { width: 40, height: 50, channels: 3, background: '#cba' } })
  for (const format of FORMATS) {
    const content = await picture.toFormat(format).toBuffer()
    // What a file is called plays no part.
    for (const name of ['print', 'web']) await writeFile(join(folder, name, `${format}.jpg`), content)
  }
})
afterAll(() => rm(folder, { recursive: true }))
afterEach(() => opened.splice(0))

/** The outcomes of a check in lines, and which formats the decoder was given. */
async function checked(spec: string, ...options: readonly string[]) {
  await writeFile(
    join(folder, 'brand.yaml'),
    `brand: Osprey Lane Veterinary Group\nversion: 1\none-face: false\n${spec}`,
  )
  const { host, stdout } = recordingHost(folder)
  await run(['check', '.', '--format', 'json', ...options], host)
  const { files } = JSON.parse(stdout()) as Report
  const formats = await Promise.all(opened.map(async (content) => (await sharp(content).metadata()).format))
  return { files, decoded: [...new Set(formats.map((one) => (one === 'heif' ? 'avif' : one)))].sort() }
}

test('a format that the spec refuses never reaches the decoder, and one that it allows does', async () => {
  const { files, decoded } = await checked(
    'file-format: { allow: [jpeg] }\ncolor-space: sRGB\n',
    '--no-cache',
  )
  expect(decoded).toEqual(['jpeg'])
  const png = files.find(({ file }) => file === 'web/png.jpg')
  expect(png?.measurements).toMatchObject({ format: 'png', widthPx: null, fault: { kind: 'format' } })
  expect(png?.outcomes.map(({ rule, verdict, reason }) => `${rule} ${verdict}: ${reason}`)).toEqual([
    'file-format fail: The file is PNG; the spec asks for JPEG.',
    'intact skip: There is no picture to read; see file-format.',
    'color-space skip: Not judged: the file format is refused; see file-format.',
    'one-face skip: Switched off in the spec.',
  ])
})

test('each deliverable has its own formats', async () => {
  const spec =
    'naming: { pattern: "{deliverable}/{family}.jpg" }\ndeliverables:\n  print: { file-format: { allow: [tiff] } }\n  web: { file-format: { allow: [webp, png] } }\n'
  const { files, decoded } = await checked(spec, '--no-cache')
  expect(decoded).toEqual(['png', 'tiff', 'webp'])
  const whole = files.filter(({ measurements }) => measurements.fault === null).map(({ file }) => file)
  expect(whole).toEqual(['print/tiff.jpg', 'web/png.jpg', 'web/webp.jpg'])
})

test.each([
  ['says nothing of formats', ''],
  ['only advises against them', 'file-format: { allow: [jpeg] }\nadvisory: [file-format]\n'],
  ['does not judge them', 'file-format: false\n'],
])('a spec that %s has all decoded', async (_, spec) => {
  expect((await checked(spec, '--no-cache')).decoded).toEqual([...FORMATS].sort())
})

test('what is kept of a run that allowed a format is not taken by one that refuses it, and the other way round', async () => {
  const strict = 'file-format: { allow: [jpeg] }\n'
  const [any, only] = [await checked('', '--no-cache'), await checked(strict, '--no-cache')]
  for (const [spec, truth] of [
    ['', any],
    [strict, only],
    ['', any],
  ] as const)
    expect((await checked(spec, '--cache', join(folder, 'cache'))).files).toEqual(truth.files)
})
