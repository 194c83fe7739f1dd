import { type Static, Type } from '@sinclair/typebox'

const closed = { additionalProperties: false }
const Text = (description: string) => Type.String({ minLength: 1, maxLength: 1000, description })

/** Why a miss is let through: shown with the outcome. */
export const Grant = Type.Object(
  {
    reason: Text('Why the miss is let through.'),
    approvedBy: Text('Who answers for it.'),
    until: Type.String({ description: 'Last day on which it holds (UTC), as 2027-03-31.' }),
  },
  closed,
)
export type Grant = Static<typeof Grant>

/** One entry of the waivers: a rule, and the file or the person it is waived for. */
export interface Waiver extends Grant {
  /** Line of the file on which the entry begins, from 1. */
  readonly line: number
  readonly rule: string
  /** Path relative to the delivery root, with /; null when a person is named. */
  readonly file: string | null
  /** A person's label, or some of their fields; null when a file is named. */
  readonly person: string | Readonly<Record<string, string>> | null
}

/**
 * What became of a waiver: `used`; `unused`: nothing that it covers fails or needs a look; `expired`; `refused`: what
 * it covers can't be waived, since the file could not be read.
 */
export const WaiverState = Type.Union(
  (['used', 'unused', 'expired', 'refused'] as const).map((state) => Type.Literal(state)),
)

/** A waiver and what became of it. */
export const WaiverReport = Type.Object(
  {
    ...Grant.properties,
    line: Type.Integer({ minimum: 1 }),
    rule: Type.String(),
    file: Type.Union([Type.String(), Type.Null()]),
    person: Type.Union([Type.String(), Type.Record(Type.String(), Type.String()), Type.Null()]),
    state: WaiverState,
  },
  closed,
)
export type WaiverReport = Static<typeof WaiverReport>
