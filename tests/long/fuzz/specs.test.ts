import { expect, test } from 'vitest'
import { loadSpec } from '../../../src/brand-spec/load.ts'
import { STARTER_SPEC } from '../../../src/brand-spec/starter.ts'
import { ALL_RULES } from '../../../src/rules/delivery-index.ts'
import { seeded } from '../../random.ts'

test('whatever happens to a spec, it loads or is told about, at a place that it has', () => {
  const random = seeded(5)
  const pick = <T>(list: readonly T[]) => list[Math.floor(random() * list.length)] as T
  const bits = [
    ...'{}[]:#"\'&*!|>%@?,-~\\\t\n\u0000\u202e\ufeff',
    ': ',
    '- ',
    ' #',
    '*a',
    '---',
    '1e999',
    '__proto__: 1\n',
  ]
  let told = 0
  for (let n = 0; n < 600; n++) {
    const at = Math.floor(random() * STARTER_SPEC.length)
    const rest = STARTER_SPEC.slice(at + pick([0, 0, 1, 5, 20]))
    const yaml = STARTER_SPEC.slice(0, at) + pick(bits) + rest
    const loaded = loadSpec(yaml, 'brand.yaml', ALL_RULES)
    if ('spec' in loaded) continue
    told++
    expect(loaded.problems.length).toBeGreaterThan(0)
    for (const { line, column, message } of loaded.problems) {
      const text = yaml.split(/\r\n|\r|\n/)[line - 1]
      expect(text, message).toBeDefined()
      expect(column, message).toBeGreaterThan(0)
      expect(column, message).toBeLessThanOrEqual((text ?? '').length + 1)
    }
  }
  expect(told).toBeGreaterThan(100)
})
