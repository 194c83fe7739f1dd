import { hash } from 'node:crypto'
import { type BigIntStats, statSync } from 'node:fs'
import { mkdir } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { readAtMost } from '../files/read-at-most.ts'
import { replaceWhole } from '../files/replace-whole.ts'
import { prune } from './prune.ts'

/**
 * Which content a file has as long as nothing touches it. That of a frame is what it is measured by: of a raw file, the JPEG that it embeds. Never
 * rejects.
 */
export interface FileIndex {
  readonly folder: string
  /** SHA-256 of the content of a file that is as it was; null when it is new, was touched or can't be looked at. */
  look(path: string, isFrame?: boolean): Promise<string | null>
  /** Takes down the content of a file that was looked at before it was read. */
  learn(path: string, sha256: string | null, isFrame?: boolean): void
  save(): Promise<void>
}

interface Seen {
  /** Size, times of the last change of content and of the inode in ns, inode. */
  readonly state: string
  readonly sha256: string
}
type Listing = Map<string, Seen>

// A file that was changed less than this before it was looked at may change again with no newer time: the clocks of
// file systems tick up to every two seconds (FAT; from memory).
const SETTLED_NS = 2_000_000_000n
const MOST_FOLDERS = 1000
// About 200 bytes a file.
const LARGEST = 64 * 1024 * 1024

/** @param folder absolute; one file for each folder of pictures, neither of which names anything */
export function openIndex(folder: string): FileIndex {
  const listings = new Map<string, Promise<Listing>>()
  const looked = new Map<string, string>()
  const learnt = new Map<string, [key: string, seen: Seen][]>()
  const listingOf = (pictures: string) => {
    const known = listings.get(pictures)
    if (known) return known
    const reading = readListing(join(folder, digest(pictures)))
    listings.set(pictures, reading)
    return reading
  }
  return {
    folder,
    async look(path, isFrame = false) {
      const now = BigInt(Date.now()) * 1_000_000n
      const stats = statsOf(path)
      if (!stats) return null
      const state = stateOf(stats)
      if (latest(stats) + SETTLED_NS < now) looked.set(path, state)
      const seen = (await listingOf(dirname(path))).get(keyOf(path, isFrame))
      return seen?.state === state ? seen.sha256 : null
    },
    learn(path, sha256, isFrame = false) {
      const state = looked.get(path)
      if (state === undefined || sha256 === null) return
      const own = learnt.get(dirname(path)) ?? []
      own.push([keyOf(path, isFrame), { state, sha256 }])
      learnt.set(dirname(path), own)
    },
    async save() {
      for (const [pictures, seen] of learnt) {
        // Read anew: another run may have added to it meanwhile.
        const listing = await readListing(join(folder, digest(pictures)))
        for (const [key, one] of seen) listing.set(key, one)
        await writeListing(folder, digest(pictures), listing)
      }
      learnt.clear()
    },
  }
}

async function readListing(path: string): Promise<Listing> {
  try {
    const content = await readAtMost(path, LARGEST)
    const text = 'data' in content ? content.data.toString('utf8') : '{}'
    return new Map(Object.entries(JSON.parse(text) as Record<string, Seen>))
  } catch {
    return new Map()
  }
}

async function writeListing(folder: string, name: string, listing: Listing): Promise<void> {
  try {
    await mkdir(folder, { recursive: true, mode: 0o700 })
    await replaceWhole(join(folder, name), JSON.stringify(Object.fromEntries(listing)), { mode: 0o600 })
    prune(folder, MOST_FOLDERS)
  } catch {
    // Without it the files are hashed again.
  }
}

/** Null for what can't be looked at. By this thread: handing it over to another takes several times as long. */
function statsOf(path: string): BigIntStats | null {
  try {
    return statSync(path, { bigint: true })
  } catch {
    return null
  }
}

function stateOf({ size, mtimeNs, ctimeNs, ino }: BigIntStats): string {
  return [size, mtimeNs, ctimeNs, ino].join(' ')
}

function latest({ mtimeNs, ctimeNs }: BigIntStats): bigint {
  return mtimeNs > ctimeNs ? mtimeNs : ctimeNs
}

function keyOf(path: string, isFrame: boolean): string {
  // No file's name holds a slash.
  return digest(isFrame ? `frame/${basename(path)}` : basename(path))
}

/** Names of people stand in the names of their files, so those are kept as their digests. */
function digest(text: string): string {
  return hash('sha256', text).slice(0, 32)
}
