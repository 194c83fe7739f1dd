import { execFileSync } from 'node:child_process'
import { existsSync, mkdtempSync, readdirSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { validateBag } from '../../src/bag/validate.ts'

/*
 * The Library of Congress's BagIt conformance suite (github.com/LibraryOfCongress/bagit-conformance-suite; CC0 1.0), whole and
 * unchanged. A folder's name says how its bags end: "valid", "invalid", "warning" (valid, but to be told); those for one
 * system only are invalid, and here on every system. Two bags lost files on the way into git: .DS_Store, and HELLO.txt.
 */
const FAULTS: Readonly<Record<string, string>> = {
  'baginfo-missing-encoding': 'structure',
  'bom-in-bagit.txt': 'structure',
  'corrupt-data-file': 'changed',
  'corrupt-tag-file': 'changed',
  'extra-file-in-bag': 'unlisted',
  'invalid-version-number': 'structure',
  'missing-baginfo': 'missing',
  'missing-bagit.txt': 'missing',
  'bagit-with-invalid-whitespace': 'structure',
  notAllManifestsListAllFiles: 'unlisted',
  'v0.97/invalid/same-filename-listed-twice-with-different-hashes': 'twice',
  // Its declaration ends in a space, which hides the rest.
  'v1.0/invalid/same-filename-listed-twice-with-different-hashes': 'structure',
  'same-filename-listed-twice-with-the-same-hash': 'twice',
}

let suite = ''
beforeAll(() => {
  suite = mkdtempSync(join(tmpdir(), 'conformance-'))
  execFileSync('tar', ['xzf', join(import.meta.dirname, 'conformance-suite.tar.gz'), '-C', suite])
})

const signal = new AbortController().signal

function bags(ending: RegExp): string[] {
  return ['v0.97', 'v1.0'].flatMap((version) =>
    readdirSync(join(suite, version))
      .filter((kind) => ending.test(kind))
      .flatMap((kind) => readdirSync(join(suite, version, kind)).map((bag) => `${version}/${kind}/${bag}`))
      .filter((bag) => existsSync(join(suite, bag, 'data'))),
  )
}

describe('the conformance suite of the Library of Congress', () => {
  test('valid bags are valid', async () => {
    const found = bags(/^valid$/)
    expect(found).toHaveLength(13)
    for (const bag of found)
      expect(await validateBag(join(suite, bag), signal), bag).toMatchObject({ valid: true, problems: [] })
  })

  test('bags to be warned of are valid, and something is told', async () => {
    const found = bags(/^warning$/)
    expect(found).toHaveLength(6)
    for (const bag of found) {
      const { valid, warnings } = await validateBag(join(suite, bag), signal)
      expect(valid, bag).toBe(true)
      expect(warnings.filter(({ fault }) => fault !== 'algorithm').length, bag).toBeGreaterThan(0)
    }
  })

  test('invalid bags are told what is wrong, those for one system on every system', async () => {
    const found = bags(/^(?:invalid|linux-only|windows-only)$/)
    expect(found).toHaveLength(27)
    for (const bag of found) {
      const { valid, problems } = await validateBag(join(suite, bag), signal)
      expect(valid, bag).toBe(false)
      const name = bag.split('/').at(-1) ?? ''
      const fault = FAULTS[bag] ?? FAULTS[name] ?? (name.startsWith('out-of-scope') ? 'path' : '')
      expect(
        problems.map((one) => one.fault),
        bag,
      ).toContain(fault)
    }
  })
})
