import { Type } from '@sinclair/typebox'
import type { Spec } from '../../src/brand-spec/spec.ts'
import { judgeFile } from '../../src/judge/judge.ts'
import { buildReport, type Report, type ReportParts, summedUp } from '../../src/judge/report.ts'
import type { Measurements } from '../../src/measure/schema/measurements.ts'
import type { NameReading } from '../../src/naming/name-reading.ts'
import { defineRule, type Rule } from '../../src/rules/contract/rule.ts'
import { RULES } from '../../src/rules/index.ts'
import { GOOD, GOOD_NAME } from '../rules/judging/cases.ts'

export const SPEC: Spec = {
  file: 'brand.yaml',
  brand: 'Osprey Lane Veterinary Group',
  version: 1,
  extended: [],
  consent: null,
  namedIn: { roster: 'brand.yaml', waivers: 'brand.yaml' },
  naming: null,
  masters: null,
  prepare: {},
  settings: {
    'file-name': {},
    'color-space': 'sRGB',
    headroom: { min: 6, max: 12 },
    tilt: { max: 2 },
  },
  deliverables: {
    print: { 'pixel-size': { width: 2400, height: 3000 } },
    web: { 'aspect-ratio': '1:1', headroom: { min: 4, max: 10 } },
  },
  waivers: null,
  advisory: ['tilt'],
}

export interface Delivered {
  readonly file: string
  readonly measured?: Partial<Measurements>
  readonly name?: Partial<NameReading>
  /** Label. */
  readonly person?: string | null
}

/** A report on files that are the good portrait but for what is told of them. */
export function reportOn(
  delivered: readonly Delivered[],
  spec: Spec = SPEC,
  parts: Partial<ReportParts> = {},
): Report {
  const files = delivered.map(({ file, measured: changes, name: named, person = null }) => {
    const measured = { ...GOOD, file, ...changes }
    const name = { ...GOOD_NAME, path: file, ...named }
    return { measured, name, person, outcomes: judgeFile({ measured, name }, spec, RULES) }
  })
  return buildReport({
    tool: { name: 'portrait-gate', version: '0.0.0' },
    spec,
    strict: false,
    left: { hidden: 0, sidecars: 0, links: 0, other: 0 },
    files,
    ...parts,
  })
}

/** A rule that finds what it is told. */
export function fixedRule(id: string, changes: Partial<Rule> = {}): Rule {
  const rule = defineRule({
    id,
    severity: 'label',
    dependsOn: 'scene',
    text: { title: id, measures: id, why: id, fix: id, example: `${id}: pass` },
    options: Type.Union([
      Type.Literal('pass'),
      Type.Literal('fail'),
      Type.Literal('unsure'),
      Type.Literal('skip'),
    ]),
    needs: [],
    judge: (_, verdict) => ({ verdict, measured: null, expected: null, reason: `${id} says ${verdict}.` }),
  })
  return { ...rule, ...changes }
}

/** A report on many portraits that differ in their paths alone; one of them is judged. */
export function reportOnAlike(paths: readonly string[], measured: Partial<Measurements>): Report {
  const report = reportOn(paths.slice(0, 1).map((file) => ({ file, measured })))
  const files = report.files.flatMap((one) => paths.map((file) => ({ ...one, file })))
  return { ...report, ...summedUp(files, report.delivery), files }
}
