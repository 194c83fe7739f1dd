import { type Static, Type } from '@sinclair/typebox'

const closed = { additionalProperties: false }

/**
 * What is wrong with what is shown in public. `missing`: somebody on the roster is not shown; `ended`: somebody is shown who left or no longer
 * agrees; `stranger`: somebody who is not on the roster; `not-approved`: a picture that nobody approved, such as last year's; `swapped`:
 * the approved picture of somebody else; `mirrored`: flipped; `band`: cropped so that the spec is no longer met; `larger`: made larger than the
 * approved file; `credit`: creator or copyright are gone or changed; `absent-file`: listed and not there; `unreadable`; `unsure`: to be
 * checked by eye.
 */
export const PublishedFinding = Type.Object(
  {
    kind: Type.Union(
      (
        [
          ...[
            'missing',
            'ended',
            'stranger',
            'not-approved',
            'swapped',
            'mirrored',
            'band',
            'larger',
            'credit',
          ],
          ...['absent-file', 'unreadable', 'unsure'],
        ] as const
      ).map((kind) => Type.Literal(kind)),
    ),
    verdict: Type.Union([Type.Literal('fail'), Type.Literal('unsure')]),
    file: Type.Union([Type.String(), Type.Null()]),
    person: Type.Union([Type.String(), Type.Null()]),
    /** Path of the approved file that it is about. */
    approved: Type.Union([Type.String(), Type.Null()]),
    message: Type.String(),
  },
  closed,
)
export type PublishedFinding = Static<typeof PublishedFinding>

/** What is shown in public, held against what was approved; plain JSON. */
export const PublishedReport = Type.Object(
  {
    kind: Type.Literal('published portraits'),
    verdict: Type.Union([Type.Literal('pass'), Type.Literal('fail'), Type.Literal('unsure')]),
    shown: Type.Integer({ minimum: 0, description: 'Pictures that are shown.' }),
    approved: Type.Integer({ minimum: 0, description: 'Files that were approved.' }),
    people: Type.Integer({ minimum: 0, description: 'People of whom an approved picture is shown.' }),
    findings: Type.Array(PublishedFinding),
  },
  closed,
)
export type PublishedReport = Static<typeof PublishedReport>
