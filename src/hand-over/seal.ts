import { stat } from 'node:fs/promises'
import { resolve } from 'node:path'
import type { BagInfo } from '../bag/bag-info.ts'
import type { PackedFile } from '../bag/write-bag.ts'
import type { Host } from '../checking/host.ts'
import { UsageError } from '../checking/usage-error.ts'
import { TOOL } from '../judge/tool.ts'
import { count } from '../text/quantity.ts'
import { signed } from './signature.ts'
import { type Checked, sealedTags } from './tags.ts'
import { writeSealed } from './write-sealed.ts'

export interface Sealing {
  /** A path that ends in `.zip`, or a folder's; nothing is there yet. */
  readonly output: string
  /** Who delivers; not told when absent. */
  readonly organization?: string
  /** What is delivered; made from the spec when absent. */
  readonly description?: string
  /** Path of a key of OpenSSH to sign with. */
  readonly sign?: string
}

/**
 * Packs what was judged, with what it was judged by, into a bag.
 * @throws UsageError when it can't be written, or a file is no longer the one that was judged
 */
export async function sealDelivery(checked: Checked, sealing: Sealing, host: Host): Promise<void> {
  const { report, portraits, at } = checked
  const sums = new Map(report.files.map(({ file, measurements }) => [file, measurements.sha256]))
  const payload = await Promise.all(
    portraits.map(async ({ file, path, astray }): Promise<PackedFile> => {
      if (astray !== undefined)
        throw new UsageError(
          `${file} is a link that leads ${astray}; nothing was sealed. Put the file itself there.`,
        )
      const { size } = await stat(path)
      return { file, path, bytes: size, sha256: sums.get(file) ?? null }
    }),
  )
  const tags = await sealedTags(checked, host.signal)
  const { sign } = sealing
  const key = sign === undefined ? null : resolve(host.cwd, sign)
  const content = {
    payload,
    tags,
    info: infoOf(checked, sealing),
    sign: key === null ? null : (list: Buffer) => signed(list, key),
  }
  await writeSealed(sealing.output, content, at, host)
}

function infoOf({ report, at }: Checked, { organization, description }: Sealing): BagInfo {
  const { brand, version } = report.spec
  const people = new Set(report.files.flatMap(({ person }) => person ?? [])).size
  const made = `${count(report.totals.files, 'staff portrait')} of ${count(people, 'person', 'people')} for ${brand}, checked by version ${version} of its brand spec`
  return [
    ...(organization === undefined ? [] : ([['Source-Organization', organization]] as const)),
    ['External-Description', description ?? made],
    ['Bagging-Date', at.toISOString().slice(0, 10)],
    ['Bag-Software-Agent', `${TOOL.name} ${TOOL.version}`],
  ]
}
