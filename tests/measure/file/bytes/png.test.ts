import { expect, test } from 'vitest'
import { readPng } from '../../../../src/measure/file/bytes/png.ts'
import { noise, plain } from '../../samples.ts'
import { chunk, physical, withChunks } from './png-writer.ts'

test('chunks before the picture, and its end', async () => {
  const png = withChunks(await plain([200, 150, 120]).png().toBuffer(), [physical(11811, 11811, 1)])
  const { chunks, ended } = readPng(png)
  expect(chunks.map(({ type }) => type)).toEqual(['IHDR', 'pHYs'])
  expect(chunks[1]?.data).toHaveLength(9)
  expect(ended).toBe(true)
})

test('what follows IEND is not read', async () => {
  const png = await plain([200, 150, 120]).png().toBuffer()
  expect(readPng(Buffer.concat([png, chunk('IDAT', Buffer.alloc(9)), Buffer.alloc(3)])).ended).toBe(true)
})

test('every cut is seen', async () => {
  const png = await noise(20, 20).png().toBuffer()
  for (let length = 0; length < png.length; length++) {
    expect(readPng(png.subarray(0, length)).ended, `${length} bytes`).toBe(false)
  }
})

test('a length beyond the end', async () => {
  const png = await plain([200, 150, 120]).png().toBuffer()
  png.writeUInt32BE(0xffffffff, 33)
  expect(readPng(png).ended).toBe(false)
})
