import { type Static, Type } from '@sinclair/typebox'
import { DECODABLE } from '../../measure/schema/formats.ts'
import { FIELDS, type FieldId, PRIVATE_ITEMS } from '../../measure/schema/metadata-facts.ts'

const closed = { additionalProperties: false }
const oneOf = <T extends string>(values: readonly T[], options = {}) =>
  Type.Unsafe<T>(
    Type.Union(
      values.map((value) => Type.Literal(value)),
      options,
    ),
  )
const Range = (description: string) =>
  Type.Optional(
    Type.Object(
      { min: Type.Optional(Type.Number()), max: Type.Optional(Type.Number()) },
      {
        ...closed,
        description,
      },
    ),
  )

/** The color spaces that a spec can ask for. */
export const COLOR_SPACES = ['sRGB', 'Adobe RGB (1998)', 'Display P3', 'ProPhoto RGB', 'gray'] as const
export type ColorSpace = (typeof COLOR_SPACES)[number]

/** How a file is to be saved again, so that a finding is gone; what it does not name stays as it is. */
export const ExportSettings = Type.Object(
  {
    from: Type.Union([Type.Literal('file'), Type.Literal('original')], {
      description:
        '`file`: this file holds all that is needed. `original`: something is asked for that it has lost.',
    }),
    formats: Type.Optional(Type.Array(oneOf(DECODABLE), { description: 'One of these formats.' })),
    colorSpace: Type.Optional(
      oneOf(COLOR_SPACES, { description: 'Converted to this color space, with its profile embedded.' }),
    ),
    bitsPerChannel: Type.Optional(Type.Integer()),
    quality: Range('JPEG quality on the IJG scale.'),
    subsampling: Type.Optional(
      Type.Array(Type.String(), { description: 'Chroma subsampling of a JPEG: one of these.' }),
    ),
    progressive: Type.Optional(
      Type.Boolean({ description: 'true for progressive JPEG, false for sequential (baseline).' }),
    ),
    bytes: Range('Size of the file in bytes.'),
    pixels: Type.Optional(
      Type.Object(
        {
          width: Range('Width, px.'),
          height: Range('Height, px.'),
          longEdge: Range('Long edge, px.'),
          shortEdge: Range('Short edge, px.'),
        },
        { ...closed, description: 'The whole picture at another size.' },
      ),
    ),
    ppi: Type.Optional(Type.Number({ description: 'Resolution tag; the pixels stay as they are.' })),
    upright: Type.Optional(
      Type.Literal(true, {
        description: 'The pixels turned as the orientation tag says, and the tag cleared.',
      }),
    ),
    leaveOut: Type.Optional(
      Type.Array(oneOf([...PRIVATE_ITEMS, 'stated-sizes', 'other-content']), {
        description:
          'What the file must not carry: items of the metadata, wrong sizes stated in it, and whatever it holds beside one picture.',
      }),
    ),
    fillIn: Type.Optional(
      Type.Unsafe<Partial<Record<FieldId, readonly string[]>>>(
        Type.Object(
          Object.fromEntries(FIELDS.map((field) => [field, Type.Optional(Type.Array(Type.String()))])),
          {
            ...closed,
            description:
              'Fields of the metadata to fill in, with the texts that each must contain; with none, any text will do.',
          },
        ),
      ),
    ),
  },
  { ...closed, description: 'How the file is to be saved again; what is not named stays as it is.' },
)
export type ExportSettings = Static<typeof ExportSettings>

/** What an export settles of a file, whatever it is made from. */
export type Saving = Omit<ExportSettings, 'from'>
