import { lstatSync, mkdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { FileMemory } from '../files/file-memory.ts'
import { readAtMostNow } from '../files/read-at-most.ts'
import { replaceWholeNow } from '../files/replace-whole.ts'
import { isRefused, refused } from '../measure/schema/formats.ts'
import { type Held, isDecoded, joined, restricted } from '../measure/schema/groups.ts'
import type { MeasurementGroup, Measurements } from '../measure/schema/measurements.ts'
import type { MeasurementStore, Wanted } from '../measure/schema/store.ts'
import { prune } from './prune.ts'
import { nameOf, sealed, unsealed } from './seal.ts'

export interface EntriesPlace {
  readonly folder: string
  readonly measurer: string
}
/** A store that finds in two steps, of which another thread may take the first. */
export interface Entries extends MeasurementStore {
  readonly place: EntriesPlace
  /** An entry's text, UTF-8; null when there is none that opens. */
  opened(sha256: string, groups: readonly MeasurementGroup[], isFrame?: boolean): Buffer | null
  /** What is wanted of an entry's text; null when it has not all of it. */
  taken(text: Buffer, groups: readonly MeasurementGroup[], wanted: Wanted): Measurements | null
}

// By the first byte of their names: 256 folders of at most so many entries of about 10 kB, 250 MB in all.
const MOST_A_FOLDER = 100
// Of all that is kept of a picture, the texts of its metadata are the longest: 4 MiB unpacked.
const LARGEST = 16 * 1024 * 1024

/**
 * Measurements by content, one sealed file for each. A file that was measured with no pixel decoded has an entry of its
 * own, since less is known of its faults, and so has one that was measured as a camera's frame. Whatever can't be read or written is as if it were not there.
 * @param folder absolute; made when it is first written to
 * @param measurer tells one measurer from another
 */
export function openEntries({ folder, measurer }: EntriesPlace): Entries {
  const aboutOf = (groups: readonly MeasurementGroup[], isFrame = false) =>
    `${measurer} ${isDecoded(groups) ? 'pixels' : 'header'}${isFrame ? ' of a frame' : ''}`
  const pathOf = (sha256: string, about: string) => {
    const name = nameOf(sha256, about)
    return join(folder, name.slice(0, 2), name.slice(2))
  }
  const memory = new FileMemory()
  const read = (sha256: string, about: string) =>
    textOf(pathOf(sha256, about), memory, (content) => unsealed(content, sha256, about))
  return {
    place: { folder, measurer },
    opened: (sha256, groups, isFrame) => read(sha256, aboutOf(groups, isFrame)),
    taken: takenOf,
    async find(sha256, groups, wanted) {
      const text = read(sha256, aboutOf(groups, wanted.isFrame))
      return text && takenOf(text, groups, wanted)
    },
    async keep(sha256, groups, measurements, wanted) {
      const about = aboutOf(groups, wanted?.isFrame)
      const path = pathOf(sha256, about)
      const before = read(sha256, about)
      const entry = before ? joined(heldIn(before), { groups, measurements }) : { groups, measurements }
      // The name of one copy is no property of the content.
      const text = JSON.stringify({ ...entry, measurements: { ...entry.measurements, file: '' } })
      try {
        mkdirSync(dirname(path), { recursive: true, mode: 0o700 })
        // A link would have it written, and what is too much removed, elsewhere.
        if (!lstatSync(dirname(path)).isDirectory()) return
        replaceWholeNow(path, sealed(text, sha256, about), 0o600)
        prune(dirname(path), MOST_A_FOLDER)
      } catch {
        // A full disk or a folder that is read-only: the next run measures again.
      }
    },
  }
}

function takenOf(
  text: Buffer,
  groups: readonly MeasurementGroup[],
  { file, formats }: Wanted,
): Measurements | null {
  const entry = heldIn(text)
  if (!groups.every((group) => entry.groups.includes(group))) return null
  const known = entry.measurements
  known.file = file
  if (isRefused(known.format, formats)) return restricted(refused(known), groups)
  // Most often by the same spec as before.
  if (!isSame(withoutChecksum(entry.groups), withoutChecksum(groups))) return restricted(known, groups)
  return groups.includes('checksum') ? known : { ...known, sha256: null }
}

function heldIn(text: Buffer): Held {
  return JSON.parse(text.toString('utf8')) as Held
}

/** Null for what can't be read or opened. */
function textOf(path: string, memory: FileMemory, open: (content: Buffer) => Buffer | null): Buffer | null {
  try {
    const content = readAtMostNow(path, LARGEST, memory)
    return 'data' in content ? open(content.data) : null
  } catch {
    return null
  }
}

function withoutChecksum(groups: readonly MeasurementGroup[]): MeasurementGroup[] {
  return groups.filter((group) => group !== 'checksum')
}

/** Also in order, which is that of the measurements' keys. */
function isSame(one: readonly MeasurementGroup[], other: readonly MeasurementGroup[]): boolean {
  return one.length === other.length && one.every((group, i) => group === other[i])
}
