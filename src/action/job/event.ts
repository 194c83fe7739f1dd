import { readFile } from 'node:fs/promises'
import type { Runner } from './runner.ts'

/** What the forge says of the event (GitHub Docs, "Webhook events and payloads"); null when that can't be read. */
export async function readEvent({ eventPath }: Pick<Runner, 'eventPath'>): Promise<unknown> {
  if (eventPath === null) return null
  try {
    return JSON.parse(await readFile(eventPath, 'utf8'))
  } catch {
    return null
  }
}

/** A value of an event by the keys that lead to it; undefined when it has none. */
export function eventValue(event: unknown, ...keys: readonly string[]): unknown {
  let value = event
  for (const key of keys) {
    if (typeof value !== 'object' || value === null) return undefined
    value = Reflect.get(value, key)
  }
  return value
}
