import { once } from 'node:events'
import { createWriteStream } from 'node:fs'
import { PassThrough } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { ZipFile } from 'yazl'
import type { BagSink } from '../bag/write-bag.ts'

/** What shrinks; pictures don't. */
const TEXT = /\.(?:txt|json|html|ya?ml|csv|sig)$/i

export interface ZipWriting {
  readonly sink: BagSink
  /** Ends the zip and waits until all of it is written. */
  readonly end: () => Promise<void>
  /** Gives it up. */
  readonly abort: () => void
}

/**
 * Writes a zip, file by file. The same files at the same time give the same bytes on every machine: names are in UTF-8, and
 * times as they stand on a clock in UTC.
 * @param path absolute; nothing is there yet
 * @param folder that holds all files of the zip
 */
export function zipSink(path: string, folder: string, at: Date): ZipWriting {
  const zip = new ZipFile()
  const output = createWriteStream(path, { flags: 'wx', flush: true })
  const written = pipeline(zip.outputStream, output)
  // Told by whoever waits for it.
  written.catch(() => {})
  const failed = new Promise<never>((_, reject) => {
    zip.on('error', reject)
    written.catch(reject)
  })
  failed.catch(() => {})
  const options = { mtime: dosTime(at), mode: 0o100644, forceDosTimestamp: true }
  const sink: BagSink = {
    async file(name, bytes, write) {
      const stream = new PassThrough()
      const compress = TEXT.test(name)
      zip.addReadStream(stream, `${folder}/${name}`, { ...options, size: bytes, compress })
      const fed = write(async (data) => {
        // The stream keeps what it is given, and the next piece is read into the same memory.
        if (!stream.write(Buffer.from(data))) await Promise.race([once(stream, 'drain'), failed])
      })
      await Promise.race([fed, failed])
      stream.end()
    },
  }
  const end = async () => {
    zip.end()
    await Promise.race([written, failed])
  }
  return { sink, end, abort: () => output.destroy() }
}

/** A time of the local clock that shows what a clock in UTC shows at a time: zips know no zones. */
function dosTime(at: Date): Date {
  return new Date(
    at.getUTCFullYear(),
    at.getUTCMonth(),
    at.getUTCDate(),
    at.getUTCHours(),
    at.getUTCMinutes(),
    at.getUTCSeconds(),
  )
}
