import sharp from 'sharp'
import { expect, test } from 'vitest'
import { shrunk } from '../../src/kernels/shrinking.ts'
import { seeded } from '../random.ts'

// Against the picture library itself, to the last bit.
test.each([
  ['a portrait, as for faces', 240, 300, 102],
  ['the same, as for the backdrop: blocks of two first', 241, 303, 51],
  ['blocks of five', 400, 601, 51],
  ['places that lie half-way', 255, 100, 102],
  ['hardly smaller', 110, 104, 102],
  ['a single column', 3, 900, 100],
  ['a single row', 300, 1, 77],
])('%s', async (_, width, height, edge) => {
  const next = seeded(width)
  const data = Uint8Array.from({ length: 3 * width * height }, () => Math.floor(256 * next()))
  // One that is smaller still is made of the same pixels along with it.
  const edges = [edge, Math.ceil(edge / 2)]
  const copies = shrunk(
    { data, width, height },
    edges.map((long) => Math.max(width, height) / long),
  )
  for (const [k, long] of edges.entries()) {
    const { data: expected, info } = await sharp(data, { raw: { width, height, channels: 3 } })
      .resize(long, long, { fit: 'inside', kernel: 'linear' })
      .raw()
      .toBuffer({ resolveWithObject: true })
    expect(copies[k]).toMatchObject({ width: info.width, height: info.height })
    expect(copies[k]?.data.equals(expected)).toBe(true)
  }
})
