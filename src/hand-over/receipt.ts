import { type Static, Type } from '@sinclair/typebox'
import { Report } from '../judge/report.ts'
import { Grant } from '../rules/contract/grant.ts'

const closed = { additionalProperties: false }
const OrNull = <T extends ReturnType<typeof Type.String>>(schema: T) => Type.Union([schema, Type.Null()])

const Told = Type.Object(
  {
    fault: Type.String({ description: 'What kind: missing, unlisted, changed, twice, path and the like.' }),
    file: Type.Union([Type.String(), Type.Null()], {
      description: "Path from the bag's own folder; null when it is about the bag as a whole.",
    }),
    message: Type.String(),
  },
  closed,
)

/** A bag as it was received. */
export const BagReceived = Type.Object(
  {
    valid: Type.Boolean({
      description: 'Complete, and every file is the one that was packed (RFC 8493, 3).',
    }),
    complete: Type.Boolean({ description: 'Everything is there that was packed, and nothing else.' }),
    problems: Type.Array(Told),
    warnings: Type.Array(Told),
    version: OrNull(Type.String()),
    info: Type.Array(Type.Tuple([Type.String(), Type.String()]), {
      description: 'Labels and values of bag-info.txt.',
    }),
    checksum: Type.Union([Type.String(), Type.Null()], {
      description:
        'SHA-512 of tagmanifest-sha512.txt, which stands for the whole bag; null when there is none.',
    }),
    signature: Type.Union(
      [
        Type.Object(
          {
            state: Type.Union([Type.Literal('known'), Type.Literal('unknown-key'), Type.Literal('wrong')]),
            signer: OrNull(Type.String()),
            key: OrNull(Type.String()),
          },
          closed,
        ),
        Type.Null(),
      ],
      { description: 'Who sealed it, as far as the signature tells; null without one.' },
    ),
  },
  closed,
)
export type BagReceived = Static<typeof BagReceived>

/** Something that the studio's spec and the client's say differently. */
export const Difference = Type.Object(
  {
    setting: Type.String({ description: 'The key: "headroom", or "web: headroom" for a deliverable.' }),
    ours: OrNull(Type.String({ description: 'As YAML in a line; null where it is not set.' })),
    theirs: OrNull(Type.String()),
  },
  closed,
)
export type Difference = Static<typeof Difference>

/** An exception of the studio's that covers something which the client's own spec minds. */
export const Question = Type.Object(
  {
    ...Grant.properties,
    rule: Type.String(),
    files: Type.Array(Type.String()),
    people: Type.Array(Type.String()),
    finding: Type.String({ description: 'What was found.' }),
  },
  closed,
)
export type Question = Static<typeof Question>

/** All that is known of a delivery that was received, as plain JSON. */
export const Receipt = Type.Object(
  {
    kind: Type.Literal('portrait delivery receipt'),
    from: Type.String({ description: 'Name of the zip or the folder.' }),
    bag: Type.Union([BagReceived, Type.Null()], { description: 'Null when it is no bag.' }),
    differences: Type.Union([Type.Array(Difference), Type.Null()], {
      description:
        'Where the spec that came along differs from the one judged by; null when none came along.',
    }),
    questions: Type.Array(Question),
    report: Type.Union([Report, Type.Null()], { description: 'Null when nothing was judged.' }),
  },
  closed,
)
export type Receipt = Static<typeof Receipt>
