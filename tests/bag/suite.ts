import { execFileSync } from 'node:child_process'
import { existsSync, mkdtempSync, readdirSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/*
 * The Library of Congress's BagIt conformance suite (github.com/LibraryOfCongress/bagit-conformance-suite; CC0 1.0), whole and
 * unchanged. A folder's name says how its bags end: "valid", "invalid", "warning" (valid, but to be told); those for one
 * system only are invalid, and here on every system. Two bags lost files on the way into git: .DS_Store, and HELLO.txt.
 */
export interface Suite {
  readonly folder: string
  /** Paths of the bags of all versions in folders whose name says so. */
  readonly bags: (ending: RegExp) => string[]
}

export const INVALID = /^(?:invalid|linux-only|windows-only)$/

export function unpackedSuite(): Suite {
  const folder = mkdtempSync(join(tmpdir(), 'conformance-'))
  execFileSync('tar', ['xzf', join(import.meta.dirname, 'conformance-suite.tar.gz'), '-C', folder])
  const bags = (ending: RegExp) =>
    ['v0.97', 'v1.0'].flatMap((version) =>
      readdirSync(join(folder, version))
        .filter((kind) => ending.test(kind))
        .flatMap((kind) => readdirSync(join(folder, version, kind)).map((bag) => `${version}/${kind}/${bag}`))
        .filter((bag) => existsSync(join(folder, bag, 'data'))),
    )
  return { folder, bags }
}
