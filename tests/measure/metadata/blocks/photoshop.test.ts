import { expect, test } from 'vitest'
import { readResources } from '../../../../src/measure/metadata/blocks/photoshop.ts'
import { resource } from '../formats/iim-writer.ts'

test('blocks with and without names, odd and even lengths', () => {
  const data = Buffer.concat([
    resource(0x0404, Buffer.from('abc')),
    resource(0x0425, Buffer.from('0123456789abcdef'), 'digest'),
    resource(0x040c, Buffer.from('xy'), 'odd'),
  ])
  const { resources, damaged } = readResources(data)
  expect(damaged).toBe(false)
  expect(resources.map(({ id, data: content }) => [id, content.toString()])).toEqual([
    [0x0404, 'abc'],
    [0x0425, '0123456789abcdef'],
    [0x040c, 'xy'],
  ])
})

test('a last block without its padding', () => {
  const data = resource(0x0404, Buffer.from('abc'))
  expect(readResources(data.subarray(0, -1))).toMatchObject({ resources: [{ id: 0x0404 }], damaged: false })
})

test('every cut is survived and told', () => {
  const one = resource(0x0404, Buffer.from('abcd'))
  for (let length = 1; length < one.length; length++) {
    expect(readResources(one.subarray(0, length)), `${length} bytes`).toMatchObject({
      resources: [],
      damaged: true,
    })
  }
  expect(readResources(Buffer.alloc(0))).toEqual({ resources: [], damaged: false })
})

test('a size beyond the data', () => {
  const huge = resource(0x0404, Buffer.from('abcd'))
  huge.writeUInt32BE(0xffffffff, 8)
  expect(readResources(huge).damaged).toBe(true)
})
