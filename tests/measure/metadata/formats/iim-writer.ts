import { createHash } from 'node:crypto'

/** A dataset: record, number, value. */
export type Dataset = readonly [record: number, dataset: number, value: string | Buffer]

export const UTF8: Dataset = [1, 90, '\x1b%G']

export function writeIim(datasets: readonly Dataset[]): Buffer {
  return Buffer.concat(
    datasets.map(([record, number, value]) => {
      const data = Buffer.from(value)
      const head = Buffer.from([0x1c, record, number, 0, 0])
      head.writeUInt16BE(data.length, 3)
      return Buffer.concat([head, data])
    }),
  )
}

/** One image resource block. */
export function resource(id: number, data: Buffer, name = ''): Buffer {
  const head = Buffer.from('8BIM\0\0', 'latin1')
  head.writeUInt16BE(id, 4)
  const label = Buffer.from([name.length, ...Buffer.from(name, 'latin1')])
  const size = Buffer.alloc(4)
  size.writeUInt32BE(data.length)
  const pad = (part: Buffer) => Buffer.concat([part, Buffer.alloc(part.length % 2)])
  return Buffer.concat([head, pad(label), size, pad(data)])
}

export const md5 = (data: Buffer) => createHash('md5').update(data).digest()

/** Payload of an APP13 segment. */
export const resourceSegment = (...resources: readonly Buffer[]) =>
  Buffer.concat([Buffer.from('Photoshop 3.0\0', 'latin1'), ...resources])
