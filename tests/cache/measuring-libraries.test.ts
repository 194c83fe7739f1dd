import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { MEASURING_LIBRARIES } from '../../src/cache/measuring-libraries.ts'

test('the versions of the measuring libraries are those of the package', async () => {
  const { dependencies, devDependencies } = JSON.parse(await readFile('package.json', 'utf8'))
  expect({ ...dependencies, ...devDependencies }).toMatchObject(MEASURING_LIBRARIES)
})
