import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { VERSION } from '../src/version.ts'

test('the version told is the one of the package', async () => {
  expect(JSON.parse(await readFile('package.json', 'utf8')).version).toBe(VERSION)
})
