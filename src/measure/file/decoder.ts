import sharp from 'sharp'
import { lentCopy } from '../../kernels/recycling.ts'

// Each file is decoded once, so a cache only holds memory; several files are decoded at a time, so threads within one
// only get in each other's way.
sharp.cache(false)
sharp.concurrency(1)

/**
 * The same bytes in an array that JavaScript makes, and that serves the next picture where buffers are lent. V8 forgets the class of those that native code makes with the last of them, and then
 * compiles all code anew that was optimized for it: once a picture.
 */
export function lasting(data: Buffer): Buffer {
  return lentCopy(Buffer.from(data.buffer, data.byteOffset, data.byteLength))
}

export { sharp as decoder }
