import { describe, expect, test } from 'vitest'
import type { Spec } from '../../src/brand-spec/spec.ts'
import { formatsFor, requiredGroups } from '../../src/judge/needs.ts'
import { RULES } from '../../src/rules/index.ts'
import { fixedRule, SPEC } from './sample.ts'

const spec = (changes: Partial<Spec>): Spec => ({
  ...SPEC,
  settings: {},
  deliverables: {},
  waivers: null,
  consent: null,
  namedIn: { roster: 'brand.yaml', waivers: 'brand.yaml' },
  extended: [],
  advisory: [],
  ...changes,
})

describe('measurements that judging needs', () => {
  const faces = fixedRule('faces', { needs: ['face'], always: 'pass' })
  const tint = fixedRule('tint', { needs: ['background'] })

  test('the file always, its decoding unless nothing looks at the picture', () => {
    expect(requiredGroups(spec({}), [tint])).toEqual(['file'])
    expect(requiredGroups(spec({}), RULES)).toContain('decode')
    expect(requiredGroups(spec({ settings: { intact: false } }), RULES)).toContain('decode')
    const neither = { intact: false, 'one-face': false }
    expect(requiredGroups(spec({ settings: neither }), RULES)).toEqual(['file'])
    const preview = { ...neither, 'stale-preview': true }
    expect(requiredGroups(spec({ settings: preview }), RULES)).toEqual(['file', 'decode', 'metadata'])
  })

  // A gray picture saved as RGB is told by its pixels alone.
  test.each([
    ['sRGB', true],
    [{ profile: 'sRGB', 'allow-monochrome': true }, false],
    ['gray', false],
  ])('color-space: %j needs the picture decoded: %j', (setting, isDecoded) => {
    const settings = { intact: false, 'one-face': false, 'color-space': setting }
    expect(requiredGroups(spec({ settings }), RULES).includes('decode')).toBe(isDecoded)
  })

  test('what always runs, unless it is off everywhere', () => {
    expect(requiredGroups(spec({}), [faces])).toEqual(['file', 'decode', 'face'])
    expect(requiredGroups(spec({ settings: { faces: false } }), [faces])).toEqual(['file'])
    const again = { settings: { faces: false }, deliverables: { web: { faces: 'pass' } } }
    expect(requiredGroups(spec(again), [faces])).toContain('face')
    const once = { deliverables: { web: { faces: false } } }
    expect(requiredGroups(spec(once), [faces])).toContain('face')
  })

  test('what any deliverable asks', () => {
    expect(requiredGroups(spec({ deliverables: { web: { tint: 'pass' } } }), [tint])).toContain('background')
    expect(requiredGroups(spec({ deliverables: { web: { tint: false } } }), [tint])).not.toContain(
      'background',
    )
  })

  test('the whole spec of the sample', () => {
    expect(requiredGroups(SPEC, RULES)).toEqual(['file', 'checksum', 'decode', 'background', 'face', 'head'])
  })
})

describe('formats that are worth decoding', () => {
  const forms = {
    formats: (options: unknown) =>
      options === 'jpeg' ? ['jpeg' as const] : ['jpeg' as const, 'png' as const],
  }
  const rules = [fixedRule('a', forms), fixedRule('b', forms), fixedRule('c')]
  const formats = (changes: Partial<Spec>, deliverable: string | null = null) =>
    formatsFor({ deliverable }, spec(changes), rules)

  test('all where no rule refuses any, or one only warns', () => {
    expect(formats({ settings: { c: 'jpeg' } })).toBeUndefined()
    expect(formats({ settings: { a: false } })).toBeUndefined()
    expect(formats({ settings: { a: 'jpeg' }, advisory: ['a'] })).toBeUndefined()
  })

  test('what every rule lets through, by the deliverable of the file', () => {
    expect(formats({ settings: { a: 'both' } })).toEqual(['jpeg', 'png'])
    expect(formats({ settings: { a: 'both', b: 'jpeg' } })).toEqual(['jpeg'])
    const changes = { settings: { a: 'both' }, deliverables: { web: { a: 'jpeg' } } }
    expect(formats(changes, 'web')).toEqual(['jpeg'])
    expect(formats(changes, 'print')).toEqual(['jpeg', 'png'])
  })
})
