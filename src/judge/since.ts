import { type Static, Type } from '@sinclair/typebox'

const closed = { additionalProperties: false }

/** A failure, unsure finding or warning of a report, in short. */
export const Change = Type.Object(
  {
    rule: Type.String(),
    verdict: Type.Union([Type.Literal('fail'), Type.Literal('unsure')]),
    advisory: Type.Boolean({ description: 'The spec lists the rule as advisory: a warning.' }),
    files: Type.Array(Type.String()),
    people: Type.Array(Type.String()),
    reason: Type.String(),
  },
  closed,
)
export type Change = Static<typeof Change>

/** A report against an earlier one. */
export const Since = Type.Object(
  {
    report: Type.String({ description: 'File name of the earlier report.' }),
    new: Type.Array(Change, { description: 'What the earlier report does not have.' }),
    remaining: Type.Array(Change, { description: 'What both have, as it stands now.' }),
    fixed: Type.Array(Change, {
      description:
        'What only the earlier report has: fixed, accepted by now, or about files that were taken away.',
    }),
    notJudged: Type.Array(Change, {
      description:
        'What the earlier report has and was not judged this time: its file or its rule was left out.',
    }),
  },
  { ...closed, description: 'What has changed since an earlier report.' },
)
export type Since = Static<typeof Since>
