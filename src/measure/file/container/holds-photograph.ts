import { readHead } from '../../../files/read-at-most.ts'
import { sniff } from './sniff.ts'

/** How much of a file is looked at, bytes. @choice more than any format needs that is known by its first bytes, no source. */
const HEAD = 4096
// What is no photograph, or is told by two bytes that a text may begin with.
const NO_PHOTOGRAPH: readonly unknown[] = [null, 'lfs-pointer', 'svg', 'pdf', 'bmp']

/** Whether a file's content begins as that of a photograph does, whatever its name says; false when it can't be read. */
export function holdsPhotograph(path: string | Buffer): boolean {
  const head = readHead(path, HEAD)
  return head !== null && beginsAsPhotograph(head)
}

/** The same of content at hand: all of it, or its first 4096 bytes. */
export function beginsAsPhotograph(content: Buffer): boolean {
  return !NO_PHOTOGRAPH.includes(sniff(content.subarray(0, HEAD)))
}
