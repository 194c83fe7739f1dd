import { type Static, Type } from '@sinclair/typebox'
import { CropBox } from '../../framing/crop-box.ts'
import { DECODABLE } from '../../measure/schema/formats.ts'
import { COLOR_SPACES } from '../../rules/contract/export-settings.ts'

const closed = { additionalProperties: false }
const text = (description: string) => Type.String({ description })
const Length = Type.Integer({ minimum: 1 })

const MasterFile = Type.Object(
  {
    file: text('Path of the master relative to the folder of masters, with /.'),
    sha256: text('Of its bytes.'),
  },
  closed,
)

/** What was done to make one file. */
export const Making = Type.Object(
  {
    turnDeg: Type.Number({ description: 'By so much the master was turned first, positive clockwise.' }),
    crop: Type.Composite([CropBox], {
      ...closed,
      description: 'In px of the master; of the canvas that holds it, where it was turned.',
    }),
    widthPx: Length,
    heightPx: Length,
    scale: Type.Number({
      minimum: 0,
      description: 'Width of the file over the width of the crop; 1 where nothing was resampled.',
    }),
    tight: Type.Boolean({
      description: 'The crop meets every limit, but without room for an error of measurement.',
    }),
    format: Type.Unsafe<(typeof DECODABLE)[number]>(Type.Union(DECODABLE.map((one) => Type.Literal(one)))),
    colorSpace: Type.Unsafe<(typeof COLOR_SPACES)[number]>(
      Type.Union(COLOR_SPACES.map((one) => Type.Literal(one))),
    ),
    outOfGamutPct: Type.Union([Type.Number({ minimum: 0, maximum: 100 }), Type.Null()], {
      description:
        "Share of the pixels whose colors the color space does not have, % of all; they are at its edge. Null for masters that were converted by their profile's tables, of which nobody can tell it.",
    }),
    bitsPerChannel: Type.Integer(),
    quality: Type.Union([Type.Integer({ minimum: 1, maximum: 100 }), Type.Null()], {
      description:
        'Quality that it was encoded with; null for formats without loss, and where nobody can tell.',
    }),
    sharpening: Type.Optional(
      Type.Object(
        {
          amount: Type.Number({
            minimum: 0,
            description: 'How many times the detail was added; 0 where it was not sharpened.',
          }),
          haloPct: Type.Union([Type.Number(), Type.Null()], {
            description:
              'Height of the halos at the eyes before encoding, in percent of that of the edges; null where it can not be told.',
          }),
        },
        { ...closed, description: 'Absent where the spec asks for no sharpening.' },
      ),
    ),
    generations: Type.Integer({
      minimum: 0,
      description:
        'How often its pixels have been through an encoding with loss that is known of: that of the master and its own. 1 for a JPEG of which only the metadata were changed.',
    }),
  },
  closed,
)
export type Making = Static<typeof Making>

/** One file that was made. */
export const PreparedFile = Type.Object(
  {
    file: text('Path relative to the folder of the delivery, with /.'),
    deliverable: Type.Union([Type.String(), Type.Null()]),
    master: MasterFile,
    state: Type.Union([Type.Literal('delivered'), Type.Literal('held-back')], {
      description:
        '`delivered`: nothing of it fails. `held-back`: it lies in the folder for held-back files, for `reasons`.',
    }),
    reasons: Type.Array(Type.String(), { description: 'Why it is held back; empty when it is delivered.' }),
    doubts: Type.Optional(
      Type.Array(Type.String(), {
        description:
          'What is unsure of a delivered file, to be checked by eye. Absent in records of older versions.',
      }),
    ),
    made: Type.Union([Type.Literal('now'), Type.Literal('earlier')], {
      description: '`earlier`: nothing that it depends on has changed since an earlier run made it.',
    }),
    making: Making,
    sha256: text('Of the file.'),
    bytes: Type.Integer({ minimum: 0 }),
    recipe: text('Hash of all that decides what the file is like; another one means that it is made anew.'),
    replaces: Type.Union([Type.String(), Type.Null()], {
      description:
        'SHA-256 of the file that it took the place of, as prepare had made it before; null for none.',
    }),
  },
  closed,
)
export type PreparedFile = Static<typeof PreparedFile>

export const UnmadeFile = Type.Object(
  {
    master: text('Path of the master relative to the folder of masters, with /.'),
    deliverable: Type.Union([Type.String(), Type.Null()], {
      description: 'Null where it concerns the master as a whole.',
    }),
    kind: Type.Union([Type.Literal('question'), Type.Literal('refused')], {
      description: '`question`: only a person can say. `refused`: it can not be done.',
    }),
    reason: Type.String(),
  },
  closed,
)
export type UnmadeFile = Static<typeof UnmadeFile>

/** What a run of `prepare` has done; also what the next run knows of the folder. Plain JSON. */
export const Prepared = Type.Object(
  {
    kind: Type.Literal('prepared delivery'),
    schemaVersion: Type.Literal(1, {
      description: 'Version of this form; raised when a key is renamed or removed, or changes its meaning.',
    }),
    tool: Type.Object({ name: Type.String(), version: Type.String() }, closed),
    spec: Type.Object({ brand: Type.String(), version: Type.Number() }, closed),
    files: Type.Array(PreparedFile),
    unmade: Type.Array(UnmadeFile, {
      description: 'Masters, or deliverables of them, of which no file was made.',
    }),
  },
  { ...closed, description: 'What portrait-gate prepare has made of masters, file by file.' },
)
export type Prepared = Static<typeof Prepared>
