import { parse } from 'yaml'
import type { MeasurementGroup, Measurements } from '../measure/schema/measurements.ts'
import { backgroundPlain } from '../rules/backdrop/background-plain.ts'
import { cutoutFringe } from '../rules/backdrop/cutout-fringe.ts'
import { cutoutHoles } from '../rules/backdrop/cutout-holes.ts'
import type { Rule } from '../rules/contract/rule.ts'
import { enlarged } from '../rules/finish/enlarged.ts'
import { eyesMatch } from '../rules/finish/eyes-match.ts'
import { sharpeningHalo } from '../rules/finish/sharpening-halo.ts'
import { skinCast } from '../rules/finish/skin-cast.ts'
import { skinTexture } from '../rules/finish/skin-texture.ts'
import { AGREED, type Line } from './proposals.ts'

/** Rules with a limit that hardly anyone sets otherwise, for all files. */
export const USUAL: readonly Rule[] = [backgroundPlain, cutoutFringe, cutoutHoles, enlarged, skinCast]

/** The same for what only the largest files show. */
export const USUAL_OF_LARGEST: readonly Rule[] = [sharpeningHalo, eyesMatch, skinTexture]

/** What is to be measured for them. */
export const USUAL_NEEDS: readonly MeasurementGroup[] = [...USUAL, ...USUAL_OF_LARGEST].flatMap(
  ({ needs }) => needs,
)

/** The limit in the rule's own example, where nearly all approved portraits pass it. */
export function proposeUsual({ id, text, judge }: Rule, files: readonly Measurements[]): Line {
  const options = (parse(text.example) as Record<string, unknown>)[id]
  const verdicts = files.map((measured) => {
    const name = { path: measured.file, pattern: null, fields: {}, deliverable: null, problems: [] }
    return { file: measured.file, verdict: judge({ measured, name }, options).verdict }
  })
  const that = (wanted: string) => verdicts.filter(({ verdict }) => verdict === wanted)
  const [passes, fails] = [that('pass').length, that('fail')]
  if (passes >= AGREED * files.length)
    return {
      setting: text.example,
      note: `${passes} of ${files.length}`,
      outliers: fails.map(({ file }) => file),
    }
  const rest = files.length - passes - fails.length
  const why = [
    ...(fails.length > 0 ? [`${fails.length} fail it`] : []),
    ...(rest > 0 ? [`it can't be told of ${rest}`] : []),
  ]
  return {
    setting: null,
    note: `${text.example} was left out: of ${files.length} portraits ${passes} pass it, ${why.join(', and ')}`,
    outliers: [],
  }
}
