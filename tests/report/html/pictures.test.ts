import { copyFile, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Report } from '../../../src/judge/report.ts'
import { measureFile, readHashed } from '../../../src/measure/file/read-file.ts'
import type { Measurements } from '../../../src/measure/schema/measurements.ts'
import { eyesRegion, makePictures } from '../../../src/report/html/pictures.ts'
import { reportOn } from '../../judge/sample.ts'
import { GOOD, UNREAD } from '../../rules/judging/cases.ts'

const signal = new AbortController().signal
let folder = ''
const path = (file: string) => join(folder, file)

/** Noise compresses worst: what holds for it holds for portraits. */
const noise = (width: number, height: number) =>
  sharp({
    create: {
      width,
      height,
      channels: 3,
      background: '#808080',
      noise: { type: 'gaussian', mean: 128, sigma: 60 },
    },
  })

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'portrait-gate-pictures-'))
  await noise(1200, 1500)
    .withExif({ IFD0: { Artist: 'A stranger' } })
    .jpeg()
    .toFile(path('noise.jpg'))
  // Left half red, turned on its side: displayed, the top half is red.
  const red = await sharp({ create: { width: 300, height: 400, channels: 3, background: '#ff0000' } })
    .png()
    .toBuffer()
  await sharp({ create: { width: 600, height: 400, channels: 3, background: '#0000ff' } })
    .composite([{ input: red, left: 0, top: 0 }])
    .withMetadata({ orientation: 6 })
    .jpeg({ chromaSubsampling: '4:4:4' })
    .toFile(path('sideways.jpg'))
  await sharp({ create: { width: 40, height: 40, channels: 4, background: '#00000000' } })
    .png()
    .toFile(path('clear.png'))
})
afterAll(() => rm(folder, { recursive: true, force: true }))

/** What is measured of a file as it is now. */
async function measured(file: string): Promise<Partial<Measurements>> {
  return (await measureFile(file, await readHashed(path(file)), { decode: false })).measurements
}

async function picturesOf(file: string, change: (report: Report) => Report = (report) => report) {
  const report = change(reportOn([{ file, measured: await measured(file) }]))
  return (await makePictures(report, [{ file, path: path(file) }], signal)).get(file)
}

const glare = (report: Report): Report => ({
  ...report,
  files: report.files.map((file) => ({
    ...file,
    outcomes: [
      ...file.outcomes,
      {
        rule: 'lens-glare',
        advisory: false,
        verdict: 'fail',
        measured: null,
        expected: null,
        reason: 'Glare.',
      },
    ],
  })),
})

test('small, within the bytes allowed even for noise, in sRGB and without metadata', async () => {
  const pictures = await picturesOf('noise.jpg', glare)
  for (const picture of [pictures?.thumbnail, pictures?.eyes]) {
    const { exif, icc, xmp, iptc, width, height, space } = await sharp(picture?.jpeg).metadata()
    expect({ exif, icc, xmp, iptc, space }).toEqual({
      exif: undefined,
      icc: undefined,
      xmp: undefined,
      iptc: undefined,
      space: 'srgb',
    })
    expect([width, height]).toEqual([picture?.widthPx, picture?.heightPx])
  }
  const bytes = (pictures?.thumbnail.jpeg.length ?? 0) + (pictures?.eyes?.jpeg.length ?? 0)
  expect((bytes * 4) / 3).toBeLessThan(50_000)
})

test('eyes only when focus or glare is the question', async () => {
  expect(await picturesOf('noise.jpg')).not.toHaveProperty('eyes')
  expect(await picturesOf('noise.jpg', glare)).toHaveProperty('eyes')
})

test('as displayed', async () => {
  const { thumbnail } = (await picturesOf('sideways.jpg')) ?? never()
  expect(thumbnail.heightPx).toBeGreaterThan(thumbnail.widthPx)
  const { data } = await sharp(thumbnail.jpeg).raw().toBuffer({ resolveWithObject: true })
  expect([data[0], data[2]].map((value) => (value ?? 0) > 128)).toEqual([true, false])
})

test('what is clear is white; what is small stays as it is', async () => {
  const { thumbnail } = (await picturesOf('clear.png')) ?? never()
  expect([thumbnail.widthPx, thumbnail.heightPx]).toEqual([40, 40])
  expect((await sharp(thumbnail.jpeg).raw().toBuffer())[0]).toBe(255)
})

test.each([
  ['is no picture any more', (file: string) => writeFile(file, 'no picture any more')],
  ['was cut to nothing', (file: string) => writeFile(file, '')],
  ['is gone', (file: string) => rm(file)],
  ['is another picture now, which nobody judged', (file: string) => copyFile(path('sideways.jpg'), file)],
  [
    'is a drawing now, which may load files',
    (file: string) => writeFile(file, '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>'),
  ],
])('a file that %s has no picture, and stops nothing', async (_, change) => {
  await copyFile(path('noise.jpg'), path('changed.jpg'))
  const files = ['changed.jpg', 'clear.png']
  const delivered = await Promise.all(files.map(async (file) => ({ file, measured: await measured(file) })))
  await change(path('changed.jpg'))
  const sources = files.map((file) => ({ file, path: path(file) }))
  expect([...(await makePictures(reportOn(delivered), sources, signal)).keys()]).toEqual(['clear.png'])
})

test('a file with a fault is not opened at all', async () => {
  const report = reportOn([{ file: 'noise.jpg', measured: UNREAD }])
  expect(await makePictures(report, [{ file: 'noise.jpg', path: path('noise.jpg') }], signal)).toEqual(
    new Map(),
  )
})

test('stops when it is told to', async () => {
  const stopped = AbortSignal.abort(new Error('stopped'))
  const report = reportOn([{ file: 'noise.jpg' }])
  await expect(makePictures(report, [], stopped)).rejects.toThrow('stopped')
})

describe('the part around the eyes', () => {
  const face = GOOD.face ?? never()

  test('has both eyes in its middle', () => {
    const { left, top, width, height } = eyesRegion(GOOD) ?? never()
    expect([left + width / 2, top + height / 2]).toEqual([1200, 1110])
    expect(width).toBeGreaterThan(face.eyeDistancePx ?? 0)
  })

  test.each([
    [0, 0],
    [1, 1],
    [0, 1],
  ])('stays within the frame for eyes at %d, %d', (x, y) => {
    const moved = { ...GOOD, face: { ...face, leftEye: { x, y }, rightEye: { x, y } } }
    const { left, top, width, height } = eyesRegion(moved) ?? never()
    expect(Math.min(left, top)).toBeGreaterThanOrEqual(0)
    expect(left + width).toBeLessThanOrEqual(2400)
    expect(top + height).toBeLessThanOrEqual(3000)
  })

  test('is none without eyes', () => {
    expect(eyesRegion({ ...GOOD, face: null })).toBeNull()
    expect(eyesRegion({ ...GOOD, face: { ...face, leftEye: null } })).toBeNull()
  })
})

function never(): never {
  throw new Error('there should be one')
}
