import { createWriteStream } from 'node:fs'
import { readdir, stat } from 'node:fs/promises'
import { basename, join, relative, sep } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { ZipFile } from 'yazl'
import { byCodePoint } from '../../src/text/code-points.ts'

/** The first day that a zip can tell, so that the same files give the same bytes. @source PKWARE APPNOTE 4.4.6, MS-DOS date */
const FIRST_DAY = new Date(1980, 0, 1)

/** Packs a folder with its name, and with what may be run marked so, into a zip. @param path nothing is there yet, or it is replaced */
export async function zipFolder(folder: string, path: string): Promise<void> {
  const zip = new ZipFile()
  const entries = await readdir(folder, { recursive: true, withFileTypes: true })
  const files = entries.filter((entry) => entry.isFile()).map((one) => join(one.parentPath, one.name))
  for (const file of files.sort(byCodePoint)) {
    const mode = (await stat(file)).mode & 0o100 ? 0o100755 : 0o100644
    const name = [basename(folder), ...relative(folder, file).split(sep)].join('/')
    zip.addFile(file, name, { mode, mtime: FIRST_DAY, forceDosTimestamp: true })
  }
  zip.end()
  await pipeline(zip.outputStream, createWriteStream(path))
}
