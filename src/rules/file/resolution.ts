import { Type } from '@sinclair/typebox'
import { sideOf } from '../../numbers/limits.ts'
import { asked, quantity } from '../../text/quantity.ts'
import { defineRule } from '../contract/rule.ts'
import { unmeasured } from '../judging/unmeasured.ts'

/** How far off a resolution may be unless told, ppi. @choice JFIF may store whole dots per cm, which miss by less: 118 per cm is 299.72 ppi. */
const TOLERANCE_PPI = 0.5

export const resolution = defineRule({
  id: 'resolution',
  severity: 'file',
  dependsOn: 'export',
  text: {
    title: 'Resolution tag in pixels per inch',
    measures:
      'The print resolution stated in the file, in pixels per inch (ppi). It says nothing about detail, which depends on the pixel size.',
    why: 'Layout programs place a picture at the size that this tag gives.',
    fix: 'Set the tag on export; the pixels stay as they are.',
    example: 'resolution: { ppi: 300 }',
  },
  options: Type.Object(
    {
      ppi: Type.Number({ exclusiveMinimum: 0, description: 'Pixels per inch.' }),
      tolerance: Type.Optional(
        Type.Number({
          minimum: 0,
          default: TOLERANCE_PPI,
          description: `How far off it may be, in ppi; ${TOLERANCE_PPI} by default.`,
        }),
      ),
    },
    { additionalProperties: false, description: 'The resolution tag asked for.' },
  ),
  needs: ['file'],
  saving: ({ ppi }) => ({ ppi }),
  judge({ measured }, { ppi, tolerance = TOLERANCE_PPI }) {
    if (measured.widthPx === null) return unmeasured(measured, 'The resolution')
    const limits = { min: ppi - tolerance, max: ppi + tolerance }
    const expected = asked(ppi, ' ppi')
    const fix = {
      fix: `Set the resolution to ${expected} on export, without resampling; the pixels stay as they are.`,
      export: { from: 'file' as const, ppi },
    }
    if (measured.ppi === null)
      return {
        verdict: 'fail',
        measured: 'no tag',
        expected,
        reason: `The file has no resolution tag; the spec asks for ${expected}.`,
        ...fix,
      }
    const found = quantity(measured.ppi, ' ppi', limits)
    const within = found === expected ? '' : `, give or take ${asked(tolerance)}`
    const finding = {
      measured: found,
      expected,
      reason: `The resolution is ${found}; the spec asks for ${expected}${within}.`,
    }
    if (sideOf(measured.ppi, limits) === 'inside') return { verdict: 'pass', ...finding }
    return { verdict: 'fail', ...finding, ...fix }
  },
})
