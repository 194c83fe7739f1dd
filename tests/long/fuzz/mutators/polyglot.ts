import { below, bytesOf, pick } from '../chance.ts'
import type { Mutator } from './mutator.ts'

// Beginnings by which other programs know their files.
const HEADS = [
  'GIF89a',
  '%PDF-1.7\n',
  'PK\x03\x04',
  '<svg xmlns="http://www.w3.org/2000/svg">',
  '#!/bin/sh\n',
]
  .map((head) => Buffer.from(head, 'latin1'))
  .concat([
    Buffer.from([0xff, 0xd8, 0xff]),
    Buffer.from('II\x2a\0\x08\0\0\0', 'latin1'),
    Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
  ])

/** One file that several programs take for their own: another's head before it or in its place, another's end behind it. */
export const polyglot: Mutator = (content, random) => {
  const head = pick(random, HEADS)
  return pick(random, [
    () => Buffer.concat([head, content]),
    () => Buffer.concat([head, content.subarray(head.length)]),
    () => Buffer.concat([content, head, bytesOf(random, 300)]),
    () => Buffer.concat([content, content]),
    () => Buffer.concat([content, content.subarray(below(random, content.length))]),
    () => Buffer.concat([content, Buffer.from('<script>alert(1)</script><?php exit(); ?>')]),
  ])()
}
