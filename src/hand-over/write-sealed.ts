import { lstat, mkdir, rename } from 'node:fs/promises'
import { basename, dirname, join, resolve } from 'node:path'
import { ASIDE } from '../archive/unpack-aside.ts'
import { zipSink } from '../archive/zip-sink.ts'
import { folderSink } from '../bag/folder-sink.ts'
import { type BagContent, ChangedMeanwhile, writeBag } from '../bag/write-bag.ts'
import type { Host } from '../checking/host.ts'
import { UsageError } from '../checking/usage-error.ts'
import { notWritten } from '../files/cause.ts'
import { makeOwnFolder, type OwnFolder } from '../files/own-folder.ts'

/** @throws UsageError when something is there already */
export async function refuseTaken(output: string, { cwd }: Pick<Host, 'cwd'>): Promise<void> {
  const isThere = await lstat(resolve(cwd, output)).then(
    () => true,
    () => false,
  )
  if (isThere)
    throw new UsageError(`${output} is there already; nothing was written. Name another, or remove it.`)
}

/**
 * Writes a bag whole or not at all: as a zip when the name ends so, else as a folder.
 * @throws UsageError when it can't be written, or a file is no longer the one that was judged
 */
export async function writeSealed(output: string, content: BagContent, at: Date, host: Host): Promise<void> {
  const target = resolve(host.cwd, output)
  let own: OwnFolder | null = null
  try {
    own = await makeOwnFolder(dirname(target), ASIDE, host.processes)
    const part = join(own.path, 'sealed')
    if (isZipName(output)) {
      const zip = zipSink(part, basename(target).slice(0, -'.zip'.length).normalize('NFC'), at)
      try {
        await writeBag(content, zip.sink, host.signal)
        await zip.end()
      } catch (error) {
        zip.abort()
        throw error
      }
    } else {
      await mkdir(part)
      await writeBag(content, folderSink(part), host.signal)
    }
    await refuseTaken(output, host)
    await rename(part, target)
  } catch (error) {
    host.signal.throwIfAborted()
    if (error instanceof UsageError) throw error
    if (error instanceof ChangedMeanwhile)
      throw new UsageError(`${error.message} was changed after it was judged; nothing was sealed. Run again.`)
    throw new UsageError(`${output} ${notWritten(error)}`)
  } finally {
    await own?.remove()
  }
}

function isZipName(output: string): boolean {
  return /.\.zip$/i.test(basename(output))
}
