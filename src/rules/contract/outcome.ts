import { type Static, Type } from '@sinclair/typebox'
import { CropTold } from '../../framing/crop-box.ts'
import { Rename } from '../../naming/rename.ts'
import { ExportSettings } from './export-settings.ts'
import { Grant } from './grant.ts'

const closed = { additionalProperties: false }

export const VERDICTS = ['pass', 'fail', 'unsure', 'skip'] as const
export const Verdict = Type.Union(VERDICTS.map((verdict) => Type.Literal(verdict)))
/**
 * `unsure`: could not be measured with confidence, so it must be checked by eye; never counted as a pass.
 * `skip`: does not apply, with the reason.
 */
export type Verdict = (typeof VERDICTS)[number]

/** The number that a rule judged, in the unit of its options, and the limits it should lie in; no key where it is open. */
export const Figure = Type.Object(
  { value: Type.Number(), min: Type.Optional(Type.Number()), max: Type.Optional(Type.Number()) },
  { ...closed, description: 'The number judged and its limits, for rules on a number in a range.' },
)
export type Figure = Static<typeof Figure>

const finding = {
  verdict: Type.Unsafe<Verdict>(Verdict),
  measured: Type.Union([Type.String(), Type.Null()], { description: 'What was found, with its unit.' }),
  expected: Type.Union([Type.String(), Type.Null()], { description: 'What the spec asks, with its unit.' }),
  reason: Type.String(),
  fix: Type.Optional(Type.String({ description: 'The fix, when there is one.' })),
  figure: Type.Optional(Figure),
  export: Type.Optional(ExportSettings),
  crop: Type.Optional(CropTold),
  renames: Type.Optional(
    Type.Array(Rename, {
      description: 'Files to rename, and what else to do about wrong names.',
    }),
  ),
}

/** What a rule says of one file. `reason` and `fix` are whole sentences. */
export const Finding = Type.Object(finding, closed)
export type Finding = Static<typeof Finding>

/** A finding with its rule and its weight. */
export const Outcome = Type.Object(
  {
    rule: Type.String({ description: 'Id of the rule: its key in the spec.' }),
    advisory: Type.Boolean({ description: 'The spec lists the rule as advisory: a miss is a warning.' }),
    ...finding,
    waiver: Type.Optional(Grant),
    known: Type.Optional(
      Type.Literal(true, {
        description:
          'The delivery had the same finding before the change that is judged, so it does not count against the change.',
      }),
    ),
  },
  closed,
)
export type Outcome = Static<typeof Outcome>
