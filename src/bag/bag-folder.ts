import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { PAYLOAD } from './paths.ts'
import { isBag } from './validate.ts'

/** Where things lie in what somebody sent. */
export interface Content {
  /** Absolute path of the bag's own folder; null when it is no bag. */
  readonly bag: string | null
  /** Absolute path of the folder with what was delivered. */
  readonly delivery: string
  /** Names of what lies beside the bag in what was sent, and should not. */
  readonly beside: readonly string[]
}

/** What systems add to archives and folders by themselves. */
const ADDED = ['__MACOSX', '.DS_Store', 'Thumbs.db', 'desktop.ini']

/**
 * Finds the bag in a folder: itself, or one of the folders in it, since a bag is packed within its own folder, which is
 * alone (RFC 8493, 4). Without a bag, the delivery is the folder or the only folder in it.
 * @param folder absolute
 */
export async function contentOf(folder: string): Promise<Content> {
  if (await isBag(folder)) return { bag: folder, delivery: join(folder, PAYLOAD), beside: [] }
  const entries = await readdir(folder, { withFileTypes: true })
  const own = entries.filter(({ name }) => !ADDED.includes(name))
  for (const { name } of own.filter((entry) => entry.isDirectory())) {
    const bag = join(folder, name)
    const beside = own.map((entry) => entry.name).filter((other) => other !== name)
    if (await isBag(bag)) return { bag, delivery: join(bag, PAYLOAD), beside }
  }
  const [only, ...others] = own
  const delivery = only?.isDirectory() && others.length === 0 ? join(folder, only.name) : folder
  return { bag: null, delivery, beside: [] }
}
