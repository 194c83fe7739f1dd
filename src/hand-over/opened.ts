import { rename, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, dirname, resolve } from 'node:path'
import { isZip } from '../archive/unpack.ts'
import { type Content, contentOf } from '../bag/bag-folder.ts'
import type { Host } from '../checking/host.ts'
import { UsageError } from '../checking/usage-error.ts'
import { unpacked } from '../checking/zip-as-folder.ts'
import { refuseTaken } from './write-sealed.ts'

/** What was sent, laid open. */
export interface Opened extends Content {
  /** Name of the zip or the folder. */
  readonly name: string
  /** Puts what was unpacked into place: the bag, or the delivery when it is none. */
  readonly keep: () => Promise<void>
  /** Removes what was unpacked and not kept. */
  readonly close: () => Promise<void>
}

/**
 * Opens what was sent: a folder where it lies, a zip unpacked aside.
 * @param output where to keep what a zip holds; null to keep nothing
 * @param temp absolute path of the folder to unpack in when nothing is to be kept
 * @throws UsageError when there is nothing of the kind, or the zip is refused
 */
export async function openReceived(
  path: string,
  output: string | null,
  host: Host,
  temp = tmpdir(),
): Promise<Opened> {
  const full = resolve(host.cwd, path)
  const stats = await stat(full).catch(() => null)
  if (stats === null) throw new UsageError(`There is nothing at ${path}. Check the path and run again.`)
  const name = basename(full)
  if (stats.isDirectory()) {
    if (output !== null)
      throw new UsageError(`${path} is a folder already; leave --output out, which is for what a zip holds.`)
    return { ...(await contentOf(full)), name, keep: async () => {}, close: async () => {} }
  }
  if (!isZip(full))
    throw new UsageError(
      `${path} is neither a zip nor a folder, or was cut off on the way. Name what you were sent, and ask for it again if it is a zip.`,
    )
  if (output !== null) await refuseTaken(output, host)
  const place = output === null ? null : resolve(host.cwd, output)
  const aside = await unpacked(path, host, place === null ? temp : dirname(place))
  const content = await contentOf(aside.folder)
  const keep = async () => {
    if (place === null || output === null) return
    await refuseTaken(output, host)
    await rename(content.bag ?? content.delivery, place)
  }
  return { ...content, name, keep, close: aside.remove }
}
