import { type Static, Type } from '@sinclair/typebox'

export const VERDICTS = ['pass', 'fail', 'unsure', 'skip'] as const
export const Verdict = Type.Union(VERDICTS.map((verdict) => Type.Literal(verdict)))
/**
 * `unsure`: could not be measured with confidence, a person must look; never counted as a pass.
 * `skip`: does not apply, with the reason.
 */
export type Verdict = (typeof VERDICTS)[number]

/** What a rule says of one file. `reason` and `remedy` are whole sentences. */
export const Finding = Type.Object(
  {
    verdict: Type.Unsafe<Verdict>(Verdict),
    measured: Type.Union([Type.String(), Type.Null()], { description: 'What was found, with its unit.' }),
    expected: Type.Union([Type.String(), Type.Null()], { description: 'What the spec asks, with its unit.' }),
    reason: Type.String(),
    remedy: Type.Optional(Type.String({ description: 'The mend, when there is one.' })),
  },
  { additionalProperties: false },
)
export type Finding = Static<typeof Finding>
