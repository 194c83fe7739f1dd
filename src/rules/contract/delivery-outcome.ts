import { type Static, Type } from '@sinclair/typebox'
import { Finding, Outcome } from './outcome.ts'

const about = {
  people: Type.Array(Type.String(), {
    description: 'Labels of the people whom it is about; none when it is about the delivery as a whole.',
  }),
  files: Type.Array(Type.String(), {
    description: 'Files it is about, by their paths relative to the delivery root.',
  }),
  traits: Type.Optional(
    Type.Array(Type.String(), {
      description:
        'In what files stand out from others, and to which side, as "eye-line low": it tells such findings apart while their numbers move with the set.',
    }),
  ),
}

/** What a rule over the whole delivery says of a person, of a file, of several, or (with neither) of all. */
export const DeliveryFinding = Type.Object(
  { ...about, ...Finding.properties },
  { additionalProperties: false },
)
export interface DeliveryFinding extends Static<typeof DeliveryFinding> {
  /** Set when it only warns, whatever the spec says of the rule. */
  readonly warns?: true
}

/** A finding with its rule and its weight. */
export const DeliveryOutcome = Type.Object(
  { ...Outcome.properties, ...about },
  { additionalProperties: false },
)
export type DeliveryOutcome = Static<typeof DeliveryOutcome>
