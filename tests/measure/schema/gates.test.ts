import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { FACE_MOST_TURN_DEG } from '../../../src/measure/schema/gates.ts'

test('the README names the turn beyond which faces are unsure as the code has it', () => {
  const readme = readFileSync(new URL('../../../README.md', import.meta.url), 'utf8')
  expect(readme.match(/turned by more than (\d+) degrees/)?.[1]).toBe(String(FACE_MOST_TURN_DEG))
})
