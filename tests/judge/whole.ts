import type { Spec } from '../../src/brand-spec/spec.ts'
import { assembleReport } from '../../src/judge/assemble.ts'
import type { Report } from '../../src/judge/report.ts'
import { parsePattern } from '../../src/naming/naming.ts'
import { readRoster } from '../../src/people/roster.ts'
import type { Waiver } from '../../src/waivers/waiver.ts'
import { deliveryOf, STAFF } from '../rules/delivery/delivery-cases.ts'
import { GOOD } from '../rules/judging/cases.ts'
import { SPEC } from './sample.ts'

const parsed = parsePattern('{deliverable}/{family}-{given}_{staff-id}.jpg', { 'staff-id': { digits: 5 } }, [
  'print',
  'web',
])
if ('problems' in parsed) throw new Error('The pattern is sound.')
const { pattern: naming } = parsed

const WHOLE_SPEC: Spec = {
  ...SPEC,
  naming,
  settings: { 'color-space': 'sRGB', tilt: { max: 2 }, roster: 'staff.csv', variants: 'all' },
  deliverables: { print: {}, web: {} },
  advisory: [],
}

/** A report on a delivery by the paths of its files, all of them the good portrait but for `faults`. */
export function wholeReport(
  paths: readonly string[],
  waivers: readonly Waiver[] = [],
  faults: Readonly<Record<string, Partial<typeof GOOD>>> = {},
  staff = STAFF,
  settings: Spec['settings'] = {},
  advisory: Spec['advisory'] = [],
): Report {
  const roster = readRoster({ file: 'staff.csv', text: staff }, naming)
  if ('problems' in roster) throw new Error(JSON.stringify(roster.problems))
  return assembleReport(
    {
      tool: { name: 'portrait-gate', version: '0.0.0' },
      strict: false,
      today: '2026-11-25',
      left: { hidden: 0, sidecars: 0, links: 0, other: 0 },
      files: deliveryOf(paths, staff).files.map(({ name }) => ({
        name,
        measured: { ...GOOD, file: name.path, ...faults[name.path] },
      })),
    },
    {
      spec: { ...WHOLE_SPEC, settings: { ...WHOLE_SPEC.settings, ...settings }, advisory },
      roster: roster.roster,
      waivers,
      gallery: null,
    },
  )
}
