import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { MEASURING_LIBRARIES, VERSION } from '../src/version.ts'

test('the versions told are those of the package', async () => {
  const { version, dependencies } = JSON.parse(await readFile('package.json', 'utf8'))
  expect(version).toBe(VERSION)
  expect(dependencies).toMatchObject(MEASURING_LIBRARIES)
})
