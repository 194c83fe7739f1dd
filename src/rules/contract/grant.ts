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
