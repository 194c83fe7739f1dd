import { expect, test } from 'vitest'
import { unmeasured } from '../../../src/measure/schema/unmeasured.ts'

test('the words of an error are told, but not the picture that they may hold', () => {
  expect(unmeasured('a.jpg', 'took longer than 60 s').fault?.detail).toBe('took longer than 60 s')
  const said = unmeasured('a.jpg', `Unsupported input '${'197,170,124,'.repeat(1e5)}'`).fault?.detail ?? ''
  expect(said.length).toBeLessThan(320)
  expect(said).toMatch(/^Unsupported input '197,170.* \.\.\.$/)
})
