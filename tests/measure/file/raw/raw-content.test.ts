import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { embeddedJpeg } from '../../../../src/measure/file/raw/embedded-jpeg.ts'
import { isRaw, isRawWhole, rawContent } from '../../../../src/measure/file/raw/raw-content.ts'
import { startedExiftool } from '../../../outside/exiftool.ts'
import { tiffFile, type Values } from './tiff-file.ts'

// Tags by TIFF 6.0 and Technical Note 1, Exif (CIPA DC-008), and the Digital Negative specification.
const [SUBFILE, WIDTH, HEIGHT, COMPRESSION, STRIP, ORIENTATION] = [254, 256, 257, 259, 273, 274]
const [SUB_DIRECTORIES, JPEG, EXIF, TAKEN, ZONE, DNG_VERSION] = [330, 513, 0x8769, 0x9003, 0x9011, 0xc612]

let folder: string
let small: Buffer
let large: Buffer
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'portrait-gate-raw-'))
  const gray = (width: number, height: number) =>
    sharp({ create: { width, height, channels: 3, background: '#888' } })
      .jpeg()
      .toBuffer()
  small = await gray(16, 12)
  large = await gray(64, 48)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

/** As TIFF/EP (ISO 12234-2) and DNG have it: a small picture first, larger ones and the sensor's values below it. */
function raw(more: Values = {}): Buffer {
  const sensor = Buffer.concat([
    Buffer.from([0xff, 0xd8, 0xff, 0xc3, 0, 8, 14, 0x10, 0, 0x10, 0, 1]),
    Buffer.alloc(5000),
  ])
  return tiffFile({
    [SUBFILE]: 1,
    [WIDTH]: 16,
    [HEIGHT]: 12,
    [ORIENTATION]: 8,
    [JPEG]: small,
    [DNG_VERSION]: 1,
    [EXIF]: [{ [TAKEN]: '2026:05:12 09:00:00', [ZONE]: '+02:00' }],
    [SUB_DIRECTORIES]: [
      { [SUBFILE]: 0, [WIDTH]: 6000, [HEIGHT]: 4000, [COMPRESSION]: 7, [STRIP]: sensor },
      { [SUBFILE]: 1, [WIDTH]: 64, [HEIGHT]: 48, [COMPRESSION]: 7, [STRIP]: large },
    ],
    ...more,
  })
}

describe('the JPEG that a raw file embeds', () => {
  it('is the largest that can be shown, whatever directory has it', () => {
    expect(embeddedJpeg(raw())).toEqual({ jpeg: large, widthPx: 64, heightPx: 48 })
    expect(embeddedJpeg(tiffFile({ [JPEG]: small }, 'MM'))?.jpeg).toEqual(small)
  })

  it('is shown as the raw file says, at the time that it says', async () => {
    const content = rawContent(raw())
    expect(content?.fullSize).toEqual({ widthPx: 4000, heightPx: 6000 })
    const { orientation, width, exif } = await sharp(content?.data).metadata()
    expect([orientation, width]).toEqual([8, 64])
    expect(exif?.toString('latin1')).toContain('2026:05:12 09:00:00')
  })

  it('keeps the Exif that it has', async () => {
    const own = await sharp(large).withMetadata({ orientation: 3 }).jpeg().toBuffer()
    const content = rawContent(tiffFile({ [SUBFILE]: 1, [ORIENTATION]: 8, [JPEG]: own }))
    expect(content?.data).toEqual(own)
  })

  it('is what ExifTool takes out of the same file, with the times that it reads', async () => {
    const exiftool = startedExiftool()
    if (!exiftool) throw new Error('ExifTool is missing.')
    const [file, taken] = [join(folder, 'a.dng'), join(folder, 'taken.jpg')]
    await writeFile(file, raw())
    // The preview of a directory below the first one has a name of its own in ExifTool.
    await exiftool('-b', '-JpgFromRaw', '-PreviewImage', '-w!', `${folder}/taken%0f.jpg`, file)
    expect(await readFile(taken)).toEqual(large)
    const shown = join(folder, 'shown.jpg')
    await writeFile(shown, rawContent(raw())?.data ?? '')
    const read = JSON.parse(await exiftool('-json', '-n', shown))[0]
    expect(read).toMatchObject({
      Orientation: 8,
      DateTimeOriginal: '2026:05:12 09:00:00',
      OffsetTimeOriginal: '+02:00',
    })
    expect(read).not.toHaveProperty('Warning')
  })
})

describe('a raw file', () => {
  it('is known by what it says of itself, or by a name that is none of a TIFF file', () => {
    expect(isRaw('a.tif', raw())).toBe(true)
    const plain = tiffFile({ [JPEG]: small })
    expect([isRaw('a.CR2', plain), isRaw('a.TIF', plain), isRaw('a.jpg', small)]).toEqual([
      true,
      false,
      false,
    ])
  })

  it('is whole when all that it leads to lies within it', () => {
    const whole = raw()
    expect(isRawWhole(whole)).toBe(true)
    const cut = whole.subarray(0, whole.length - 3000)
    // Directories stand behind what they lead to here, so that a file cut short has none.
    expect(isRawWhole(cut) && embeddedJpeg(cut) !== null).toBe(false)
  })

  it.each(['', 'II*\0', 'MM\0*\0\0\0\x08\xff\xff'])('may be hostile: %j', (text) => {
    expect(embeddedJpeg(Buffer.from(text, 'latin1'))).toBeNull()
  })

  it('may lead in circles', () => {
    const circle = tiffFile({ [JPEG]: small })
    const first = circle.readUInt32LE(4)
    circle.writeUInt32LE(first, first + 2 + 12 * circle.readUInt16LE(first))
    expect(embeddedJpeg(circle)?.jpeg).toEqual(small)
  })
})
