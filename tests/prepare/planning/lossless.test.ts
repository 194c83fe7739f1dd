import { expect, test } from 'vitest'
import { loadSpec } from '../../../src/brand-spec/load.ts'
import type { Measurements } from '../../../src/measure/schema/measurements.ts'
import { isAsOrdered } from '../../../src/prepare/planning/lossless.ts'
import { orderOf } from '../../../src/prepare/planning/order.ts'
import { ALL_RULES } from '../../../src/rules/delivery-index.ts'
import { GOOD } from '../../rules/judging/cases.ts'

const JPEG: Measurements = {
  ...GOOD,
  ...{ format: 'jpeg', bytes: 500_000, orientationTag: null, others: [] },
  jpeg: { quality: 92, tables: 'ijg', subsampling: '4:4:4', progressive: false },
  color: { space: 'rgb', profile: 'sRGB', profileName: 'sRGB' },
}

function isLossless(rules: string, changes: Partial<Measurements> = {}): boolean {
  const text = `brand: B\nversion: 1\nnaming: { pattern: "{family}.jpg" }\n${rules}`
  const loaded = loadSpec(text, 'brand.yaml', ALL_RULES)
  if ('problems' in loaded) throw new Error(JSON.stringify(loaded.problems))
  return isAsOrdered({ ...JPEG, ...changes }, orderOf(null, loaded.spec))
}

test.each<[string, Partial<Measurements>]>([
  ['', {}],
  [
    'color-space: sRGB\nbit-depth: 8\ncompression: { quality: { min: 90 }, subsampling: "4:4:4", progressive: false }\n',
    {},
  ],
  ['file-size: { max: 510 kB }\n', {}],
  ['', { color: { space: 'rgb', profile: 'none', profileName: null } }],
])('as ordered: %j', (rules, changes) => expect(isLossless(rules, changes)).toBe(true))

test.each<[string, Partial<Measurements>]>([
  ['color-space: Display P3\n', {}],
  ['color-space: gray\n', {}],
  ['compression: { quality: { min: 95 } }\n', {}],
  ['compression: { subsampling: "4:2:0" }\n', {}],
  ['compression: { progressive: true }\n', {}],
  ['file-size: { max: 501 kB }\n', {}],
  ['', { orientationTag: 6 }],
  ['', { format: 'tiff', jpeg: null }],
  ['', { color: { space: 'cmyk', profile: 'other', profileName: 'Press' } }],
  [
    'compression: { quality: { min: 90 } }\n',
    { jpeg: { quality: null, tables: 'non-standard', subsampling: '4:4:4', progressive: false } },
  ],
  ['pixel-size: { width: 100, height: 100 }\n', {}],
])('encoded anew: %j %j', (rules, changes) => expect(isLossless(rules, changes)).toBe(false))
