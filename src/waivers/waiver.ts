import { type Static, Type } from '@sinclair/typebox'
import { Grant } from '../rules/contract/grant.ts'

const closed = { additionalProperties: false }

const Whom = Type.Union([Type.String(), Type.Record(Type.String(), Type.String())])
/** A person's label, or some of their fields. */
export type Whom = Static<typeof Whom>

/** One entry of the waivers: a rule, and the files or the people it is waived for. */
export interface Waiver extends Grant {
  /** Line of the file on which the entry begins, from 1. */
  readonly line: number
  readonly rule: string
  /** Paths relative to the delivery root, with /, in NFC; none when people are named. */
  readonly files: readonly string[]
  /** None when files are named. */
  readonly people: readonly Whom[]
  /** Whether it covers only what is about all that it names, and nothing less. */
  readonly isExact?: boolean
}

/**
 * What became of a waiver: `used`; `unused`: nothing that it covers fails or is unsure; `absent`: the delivery
 * has no file or person of that name; `partial`: the finding
 * is about others too, whom it does not name; `expired`; `refused`: what it covers can't be accepted, since
 * the file could not be read.
 */
const WaiverState = Type.Union(
  (['used', 'unused', 'absent', 'partial', 'expired', 'refused'] as const).map((state) =>
    Type.Literal(state),
  ),
)

/** A waiver and what became of it. */
export const WaiverReport = Type.Object(
  {
    ...Grant.properties,
    line: Type.Integer({ minimum: 1 }),
    rule: Type.String(),
    files: Type.Array(Type.String()),
    people: Type.Array(Whom),
    state: WaiverState,
  },
  closed,
)
export type WaiverReport = Static<typeof WaiverReport>
