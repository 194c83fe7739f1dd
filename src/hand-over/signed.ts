import { type Static, Type } from '@sinclair/typebox'
import { Report } from '../judge/report.ts'
import { Verdict } from '../judge/verdict.ts'
import { Grant } from '../rules/contract/grant.ts'
import { BagReceived, Question } from './receipt.ts'

const closed = { additionalProperties: false }
const Sha256 = Type.String({ pattern: '^[0-9a-f]{64}$' })
const OrNull = <T extends ReturnType<typeof Type.String>>(schema: T) => Type.Union([schema, Type.Null()])

/** For exactly which files it holds, and on what grounds. */
const JudgedBy = Type.Object(
  {
    delivery: Type.Object(
      { files: Type.Integer({ minimum: 0 }), sha256: Sha256 },
      {
        ...closed,
        description:
          'How many files could be read, and the SHA-256 of the list of them all with their own SHA-256 checksums, sorted by path, as sha256sum prints it.',
      },
    ),
    spec: Type.Object(
      { brand: Type.String(), version: Type.Number(), sha256: Sha256 },
      {
        ...closed,
        description:
          "The signer's own spec; its SHA-256 with those that it extends, a zero byte between two.",
      },
    ),
    verdict: Verdict,
    totals: Report.properties.totals,
    exceptions: Type.Array(
      Type.Object(
        {
          ...{ rule: Type.String(), files: Type.Array(Type.String()) },
          ...{ people: Report.properties.waivers.items.properties.people, ...Grant.properties },
        },
        closed,
      ),
      { description: 'What was let through: by the own waivers, and by what was agreed to.' },
    ),
  },
  closed,
)
export type JudgedBy = Static<typeof JudgedBy>

/** What somebody signed on a delivery, as plain JSON: to be sent back to the studio and kept. */
export const Signed = Type.Object(
  {
    kind: Type.Literal('portrait delivery sign-off'),
    decision: Type.Union([Type.Literal('approved'), Type.Literal('returned')]),
    by: Type.String({ minLength: 1 }),
    at: Type.String({ description: 'When (UTC), as 2027-03-31T09:00:00.000Z.' }),
    note: OrNull(Type.String()),
    from: Type.String({ description: 'Name of the zip or the folder.' }),
    bag: Type.Union(
      [
        Type.Object(
          { sha512: BagReceived.properties.checksum, signedBy: BagReceived.properties.signature },
          closed,
        ),
        Type.Null(),
      ],
      { description: 'Null when it was not sealed.' },
    ),
    refused: OrNull(
      Type.String({ description: 'Why it was not accepted as it came; then it was not judged.' }),
    ),
    judged: Type.Union([JudgedBy, Type.Null()]),
    questions: Type.Array(
      Type.Object(
        {
          ...Question.properties,
          agreed: Type.Union([Type.Boolean(), Type.Null()], {
            description: 'Null when it was not answered.',
          }),
        },
        closed,
      ),
      { description: "The studio's exceptions, and whether the signer agrees to them." },
    ),
  },
  closed,
)
export type Signed = Static<typeof Signed>
