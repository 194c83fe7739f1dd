import sharp, { type JpegOptions } from 'sharp'
import { describe, expect, test } from 'vitest'
import { type Frame, readSegments } from '../../../../src/measure/file/bytes/segments.ts'
import {
  isLastStripUnwatched,
  STRIP_ROWS,
  withOneStripMore,
} from '../../../../src/measure/file/jpeg/more-rows.ts'
import { noise } from '../../samples.ts'

async function framed(
  options: JpegOptions,
  gray = false,
): Promise<{ jpeg: Buffer; frame: Frame; scans: number }> {
  const picture = noise(40, 51)
  const jpeg = await (gray ? picture.toColourspace('b-w') : picture).jpeg(options).toBuffer()
  const { frame, scans } = readSegments(jpeg)
  if (!frame) throw new Error('no frame')
  return { jpeg, frame, scans }
}

describe('whether damage in the last strip of rows can go unnoticed', () => {
  test.each([
    ['4:4:4', { chromaSubsampling: '4:4:4' }, false, true],
    ['gray', {}, true, true],
    ['4:2:0, which is read ahead', { chromaSubsampling: '4:2:0' }, false, false],
    [
      'progressive, which is read whole first',
      { progressive: true, chromaSubsampling: '4:4:4' },
      false,
      false,
    ],
  ] as const)('%s', async (_, options, gray, unwatched) => {
    const { frame, scans } = await framed(options, gray)
    expect(isLastStripUnwatched(frame, scans)).toBe(unwatched)
  })

  test('not where the header can not state more rows', async () => {
    const { frame } = await framed({ chromaSubsampling: '4:4:4' })
    expect(isLastStripUnwatched({ ...frame, height: 65_528 }, 1)).toBe(false)
  })
})

test('the header of the copy states a strip more; nothing else changes', async () => {
  const { jpeg, frame } = await framed({ chromaSubsampling: '4:4:4' })
  const more = withOneStripMore(jpeg, frame)
  expect((await sharp(more).metadata()).height).toBe(51 + STRIP_ROWS)
  more.writeUInt16BE(51, frame.heightAt)
  expect(more.equals(jpeg)).toBe(true)
})
