import { mkdir, readFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { replaceWhole } from '../files/replace-whole.ts'
import { isDecoded, joined, restricted } from '../measure/groups.ts'
import type { MeasurementGroup, Measurements } from '../measure/measurements.ts'
import type { MeasurementStore } from '../measure/store.ts'
import { prune } from './prune.ts'
import { nameOf, sealed, unsealed } from './seal.ts'

export interface EntriesPlace {
  readonly folder: string
  readonly measurer: string
}
export interface Entries extends MeasurementStore {
  readonly place: EntriesPlace
}

interface Entry {
  readonly groups: readonly MeasurementGroup[]
  readonly measurements: Measurements
}

// By the first byte of their names: 256 folders of at most so many entries of about 10 kB, 250 MB in all.
const MOST_A_FOLDER = 100

/**
 * Measurements by content, one sealed file for each. A file that was measured with no pixel decoded has an entry of its
 * own, since less is known of its faults. Whatever can't be read or written is as if it were not there.
 * @param folder absolute; made when it is first written to
 * @param measurer tells one measurer from another
 */
export function openEntries({ folder, measurer }: EntriesPlace): Entries {
  const pathOf = (sha256: string, decoded: boolean) => {
    const name = nameOf(sha256, `${measurer} ${decoded ? 'pixels' : 'header'}`)
    return join(folder, name.slice(0, 2), name.slice(2))
  }
  const read = async (sha256: string, path: string): Promise<Entry | null> => {
    const content = await readFile(path).catch(() => null)
    const text = content && unsealed(content, sha256)
    return text ? (JSON.parse(text) as Entry) : null
  }
  return {
    place: { folder, measurer },
    async find(sha256, groups, file) {
      const entry = await read(sha256, pathOf(sha256, isDecoded(groups)))
      if (!entry || !groups.every((group) => entry.groups.includes(group))) return null
      return restricted({ ...entry.measurements, file }, groups)
    },
    async keep(sha256, groups, measurements) {
      const path = pathOf(sha256, isDecoded(groups))
      const before = await read(sha256, path)
      const entry: Entry = before
        ? {
            groups: [...new Set([...before.groups, ...groups])],
            measurements: joined(before.measurements, measurements),
          }
        : { groups, measurements }
      // The name of one copy is no property of the content.
      const text = JSON.stringify({ ...entry, measurements: { ...entry.measurements, file: '' } })
      try {
        await mkdir(dirname(path), { recursive: true, mode: 0o700 })
        await replaceWhole(path, sealed(text, sha256), { mode: 0o600 })
        await prune(dirname(path), MOST_A_FOLDER)
      } catch {
        // A full disk or a folder that is read-only: the next run measures again.
      }
    },
  }
}
