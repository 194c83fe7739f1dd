import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { validateBag } from '../../src/bag/validate.ts'
import { INVALID, type Suite, unpackedSuite } from './suite.ts'

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

let suite: Suite
beforeAll(() => {
  suite = unpackedSuite()
})

const { signal } = new AbortController()

describe('the conformance suite of the Library of Congress', () => {
  test('valid bags are valid', async () => {
    const found = suite.bags(/^valid$/)
    expect(found).toHaveLength(13)
    for (const bag of found)
      expect(await validateBag(join(suite.folder, bag), signal), bag).toMatchObject({
        valid: true,
        problems: [],
      })
  })

  test('bags to be warned of are valid, and something is told', async () => {
    const found = suite.bags(/^warning$/)
    expect(found).toHaveLength(6)
    for (const bag of found) {
      const { valid, warnings } = await validateBag(join(suite.folder, bag), signal)
      expect(valid, bag).toBe(true)
      expect(warnings.filter(({ fault }) => fault !== 'algorithm').length, bag).toBeGreaterThan(0)
    }
  })

  test('invalid bags are told what is wrong, those for one system on every system', async () => {
    const found = suite.bags(INVALID)
    expect(found).toHaveLength(27)
    for (const bag of found) {
      const { valid, problems } = await validateBag(join(suite.folder, bag), signal)
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
