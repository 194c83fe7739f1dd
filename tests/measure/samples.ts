import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp, { type Sharp } from 'sharp'
import { onTestFinished } from 'vitest'
import { seeded } from '../random.ts'

export type Rgb = readonly [number, number, number]

/** A picture of one color. */
export function plain([r, g, b]: Rgb, width = 32, height = 24): Sharp {
  return sharp({ create: { width, height, channels: 3, background: { r, g, b } } })
}

/** A picture of soft noise, so that every part of its file carries something. */
export function noise(width = 240, height = 300): Sharp {
  const random = seeded(width * height)
  const data = Uint8Array.from({ length: width * height * 3 }, () => Math.floor(256 * random()))
  return sharp(data, { raw: { width, height, channels: 3 } }).blur(1.5)
}

/** A folder for one test, gone when it ends. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'portrait-gate-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}

/** A file with this content in a folder of its own; gives its absolute path. */
export function temporaryFile(name: string, content: Buffer | string): string {
  const path = join(temporaryFolder(), name)
  writeFileSync(path, content)
  return path
}

/** The buffer with one place changed. */
export function patched(buffer: Buffer, change: (copy: Buffer) => void): Buffer {
  const copy = Buffer.from(buffer)
  change(copy)
  return copy
}
