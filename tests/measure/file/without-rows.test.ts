import sharp from 'sharp'
import { expect, test } from 'vitest'
import { withoutRows } from '../../../src/measure/file/without-rows.ts'
import { noise } from '../samples.ts'

// sharp (libvips) turns the picture; what is left is the shorter picture turned the same way.
test.each([1, 2, 3, 4, 5, 6, 7, 8])('orientation %i', async (orientation) => {
  const stored = await noise(30, 24).png().toBuffer()
  const shown = async (height: number) => {
    const cut = await sharp(stored).extract({ left: 0, top: 0, width: 30, height }).png().toBuffer()
    const tagged = await sharp(cut).withMetadata({ orientation }).png().toBuffer()
    const { data, info } = await sharp(tagged).autoOrient().raw().toBuffer({ resolveWithObject: true })
    return { data, width: info.width, height: info.height }
  }
  const cut = withoutRows(await shown(24), 8, orientation)
  const wanted = await shown(16)
  expect([cut.width, cut.height]).toEqual([wanted.width, wanted.height])
  expect(cut.data.equals(wanted.data)).toBe(true)
})
