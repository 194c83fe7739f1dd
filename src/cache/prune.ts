import { readdirSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { ABANDONED_MS, PART } from '../files/replace-whole.ts'

// Files of the cache's own, and parts of them. Anything else is someone's, who named a folder of theirs as the cache.
const OWN = /^\.?(?:[0-9a-f]{32}|[0-9a-f]{62})(?:\.[0-9a-f]{12}\.part)?$/

/**
 * Keeps a folder bounded: when it holds more than `most` files of the cache's own, the oldest go until a tenth is free;
 * parts that a kill left go too. What another run removes meanwhile is gone all the same.
 * @throws Error when the folder can't be listed
 */
export function prune(folder: string, most: number): void {
  const content = readdirSync(folder, { withFileTypes: true })
  const names = content.filter((one) => OWN.test(one.name) && !one.isDirectory()).map(({ name }) => name)
  const parts = names.filter((name) => name.endsWith(PART))
  if (parts.length === 0 && names.length <= most) return
  const aged = names.map((name) => ({ name, at: writtenAt(join(folder, name)) }))
  const now = Date.now()
  const abandoned = aged.filter(({ name, at }) => name.endsWith(PART) && now - at > ABANDONED_MS)
  const whole = aged.filter(({ name }) => !name.endsWith(PART)).sort((a, b) => a.at - b.at)
  const surplus = whole.length > most ? whole.slice(0, whole.length - Math.floor(0.9 * most)) : []
  for (const { name } of [...abandoned, ...surplus]) rmSync(join(folder, name), { force: true })
}

/** In ms since 1970; now for what has just gone. */
function writtenAt(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? Date.now()
}
