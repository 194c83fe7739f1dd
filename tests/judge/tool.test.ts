import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { TOOL } from '../../src/judge/tool.ts'

test('a report tells name and version of the package', async () => {
  const { name, version } = JSON.parse(await readFile('package.json', 'utf8'))
  expect(TOOL).toEqual({ name, version })
})
