import { existsSync, readFileSync } from 'node:fs'
import { delimiter, join } from 'node:path'

/** Debian packages whose tools and files the tests check against; CI installs them all. */
const LIST = join('tests', 'outside', 'debian-packages.txt')
const LISTED = readFileSync(LIST, 'utf8')
  .split('\n')
  .map((line) => line.split('#', 1)[0]?.trim())
  .filter(Boolean)

/**
 * A file of a Debian package, or null when it is not installed: the caller skips its checks then, and a sentence in the
 * run's output names what they would need.
 * @throws Error in CI (environment variable CI), where nothing may be skipped
 */
export function debianFile(debianPackage: string, path: string): string | null {
  return found(debianPackage, existsSync(path) ? path : null, path)
}

/** A program of a Debian package on the search path; otherwise as {@link debianFile}. */
export function debianTool(debianPackage: string, program: string): string | null {
  const folders = (process.env.PATH ?? '').split(delimiter)
  const path = folders.map((folder) => join(folder, program)).find((candidate) => existsSync(candidate))
  return found(debianPackage, path ?? null, program)
}

const told = new Set<string>()

function found(debianPackage: string, path: string | null, wanted: string): string | null {
  if (!LISTED.includes(debianPackage)) {
    throw new Error(
      `${debianPackage} is missing in tests/outside/debian-packages.txt; add it with its reason.`,
    )
  }
  if (path !== null) return path
  const sentence = `NOT CHECKED against ${wanted}: it is not installed. Run: apt-get install ${debianPackage}`
  if (process.env.CI) throw new Error(sentence)
  if (!told.has(sentence)) process.stderr.write(`${sentence}\n`)
  told.add(sentence)
  return null
}
