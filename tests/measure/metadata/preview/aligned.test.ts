import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { labPlanes } from '../../../../src/color/lab.ts'
import {
  CHANGED_FROM,
  compareAligned,
  SAME_TONES_UP_TO,
  SAME_UP_TO,
} from '../../../../src/measure/metadata/preview/aligned.ts'
import { contrasting, drawn, rgb, SITTERS, spotted } from './pictures.ts'

async function aligned(preview: Buffer, picture: Buffer) {
  const one = await rgb(sharp(preview))
  const other = await rgb(sharp(picture).resize(one.width, one.height, { fit: 'fill', kernel: 'cubic' }))
  const pixels = one.width * one.height
  return compareAligned(labPlanes(one.data, pixels), labPlanes(other.data, pixels), one.width, one.height)
}

describe.each(SITTERS.map((sitter) => [sitter.name, sitter] as const))('%s', (_, sitter) => {
  test('made small in other ways stays below the limit', async () => {
    const picture = await drawn(sitter)
    for (const kernel of ['linear', 'cubic', 'mitchell', 'lanczos3'] as const) {
      for (const quality of [50, 75, 92]) {
        const preview = await sharp(picture)
          .resize(160, 160, { fit: 'inside', kernel })
          .jpeg({ quality })
          .toBuffer()
        const { largest, tones, changed } = await aligned(preview, picture)
        expect(largest, `${kernel}, quality ${quality}`).toBeLessThan(SAME_UP_TO)
        expect(tones, `${kernel}, quality ${quality}`).toBeLessThan(SAME_TONES_UP_TO)
        expect(changed).toBeNull()
      }
    }
  })

  test('a stray stand of 4 % in the backdrop is found where it is', async () => {
    const picture = await drawn(sitter)
    const before = await spotted(picture, 0.1, 0.1, 0.04, await contrasting(picture, 0.1, 0.1))
    const preview = await sharp(before).resize(160, 160, { fit: 'inside' }).jpeg().toBuffer()
    const { largest, changed } = await aligned(preview, picture)
    expect(largest).toBeGreaterThan(CHANGED_FROM)
    if (!changed) throw new Error('expected a change')
    expect((changed.left + changed.right) / 2 / 128).toBeCloseTo(0.1, 1)
    expect((changed.top + changed.bottom) / 2 / 160).toBeCloseTo(0.1, 1)
    expect(changed.pct).toBeLessThan(2)
  })
})

test('a warmer grade shows in the tones and not as a change in one place', async () => {
  const [sitter] = SITTERS
  if (!sitter) throw new Error('no sitter')
  const picture = await drawn(sitter)
  const graded = await sharp(picture)
    .linear([1, 0.9, 0.6], [0, 0, 0])
    .resize(160, 160, { fit: 'inside' })
    .png()
    .toBuffer()
  const { tones, changed } = await aligned(graded, picture)
  expect(tones).toBeGreaterThan(SAME_TONES_UP_TO)
  expect(changed).toBeNull()
})
