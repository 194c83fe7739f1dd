import { loadSpec } from '../../../src/brand-spec/load.ts'
import type { Spec } from '../../../src/brand-spec/spec.ts'
import { judgeFile } from '../../../src/judge/judge.ts'
import type { Measurements } from '../../../src/measure/schema/measurements.ts'
import type { Outcome } from '../../../src/rules/contract/outcome.ts'
import { ALL_RULES } from '../../../src/rules/delivery-index.ts'
import { RULES } from '../../../src/rules/index.ts'
import { COPYRIGHT, CREATOR, HEIGHT, WIDTH } from './blocks.ts'

/** A spec as strict as specs get about files. */
export function strictSpec(format: string): Spec {
  const loaded = loadSpec(
    `brand: Osprey Lane Veterinary Group
version: 1
file-format: { allow: [${format}] }
pixel-size: { width: ${WIDTH}, height: ${HEIGHT} }
resolution: { ppi: 300 }
color-space: sRGB
metadata-required: { creator: { equals: "${CREATOR}" }, copyright: { equals: "${COPYRIGHT}" } }
metadata-forbidden: [location, camera-serial, owner]
stale-preview: true
one-face: false
`,
    'brand.yaml',
    ALL_RULES,
  )
  if ('problems' in loaded) throw new Error(loaded.problems.map(({ message }) => message).join('\n'))
  return loaded.spec
}

export function judged(measured: Measurements, spec: Spec): Outcome[] {
  const name = { path: measured.file, pattern: null, fields: {}, deliverable: null, problems: [] }
  return judgeFile({ measured, name }, spec, RULES)
}
