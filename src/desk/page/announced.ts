import type { Announced } from '../uploads.ts'

/** What a page says that it is about to send, when it is that; null for anything else. */
export function announcedOf(value: unknown): Announced | null {
  const [name, isZip] = [read(value, 'name'), read(value, 'isZip')]
  return typeof name === 'string' && typeof isZip === 'boolean' ? { name, isZip } : null
}

/** What a page says that it has sent, when it is that; null for anything else. */
export function sentOf(value: unknown): { readonly files: number; readonly bytes: number } | null {
  const [files, bytes] = [read(value, 'files'), read(value, 'bytes')]
  return typeof files === 'number' && typeof bytes === 'number' ? { files, bytes } : null
}

function read(value: unknown, key: string): unknown {
  return typeof value === 'object' && value !== null ? Reflect.get(value, key) : undefined
}
