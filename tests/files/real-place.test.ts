import { mkdirSync, realpathSync, symlinkSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { realPlace } from '../../src/files/real-place.ts'
import { temporaryFolder } from '../measure/samples.ts'

test('what is there and what is not yet, through links and without', async () => {
  const base = realpathSync(temporaryFolder())
  mkdirSync(join(base, 'real'))
  symlinkSync('real', join(base, 'link'))
  symlinkSync('nowhere', join(base, 'dangling'))
  symlinkSync('loop', join(base, 'loop'))
  const placeOf = (path: string) => realPlace(join(base, path))
  expect(await placeOf('link')).toBe(join(base, 'real'))
  expect(await placeOf('link/new/newer')).toBe(join(base, 'real/new/newer'))
  expect(await placeOf('new')).toBe(join(base, 'new'))
  for (const path of ['dangling', 'dangling/new', 'loop', 'loop/new']) expect(await placeOf(path)).toBeNull()
})
