import { mkdtemp, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { loadSpec, SpecError } from '../../src/index.ts'

async function written(text: string): Promise<{ cwd: string }> {
  const cwd = await mkdtemp(join(tmpdir(), 'api-'))
  await writeFile(join(cwd, 'brand.yaml'), text)
  return { cwd }
}

test('a spec is read from a path below the folder given', async () => {
  const at = await written('brand: Osprey Lane\nversion: 2\ntilt: { max: 2 }\n')
  expect(await loadSpec('brand.yaml', at)).toMatchObject({
    file: 'brand.yaml',
    brand: 'Osprey Lane',
    settings: { tilt: { max: 2 } },
  })
})

test('an error has every problem with its place', async () => {
  const at = await written('brand: Osprey Lane\nversion: 2\ntlit: { max: 2 }\nheadroom: { min: 9, max: 3 }\n')
  const error = await loadSpec('brand.yaml', at).catch((thrown: unknown) => thrown)
  if (!(error instanceof SpecError)) throw error
  expect(error.problems.map(({ line }) => line)).toEqual([3, 4])
  expect(error.message).toMatch(/^brand\.yaml:3:1: .*tlit.*\nbrand\.yaml:4:\d+: /)
})

test('a spec that is not there', async () => {
  await expect(loadSpec('none.yaml', await written(''))).rejects.toThrow('The spec none.yaml is not there.')
})
