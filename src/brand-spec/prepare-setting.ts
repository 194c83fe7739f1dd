import { type Static, Type } from '@sinclair/typebox'
import type { FieldId } from '../measure/schema/metadata-facts.ts'

const closed = { additionalProperties: false }

/** Fields that can be filled in when files are made; the others are facts of the picture or of its editing. */
const FILLED = [
  'creator',
  'copyright',
  'credit',
  'source',
  'title',
  'headline',
  'description',
  'alt-text',
  'extended-description',
  'person-shown',
  'keywords',
  'usage-terms',
  'web-statement',
] as const satisfies readonly FieldId[]

const Template = Type.String({
  minLength: 1,
  maxLength: 2000,
  description:
    'A text; columns of the roster and fields of the names may stand in it in braces: "Portrait of {given} {family}".',
})

/** How `prepare` reads the names of masters. */
export const MastersSetting = Type.Object(
  {
    naming: Type.String({
      minLength: 1,
      maxLength: 1000,
      description:
        'How the file of a master is named, so that it says whom it shows: fields of `naming` in braces.',
      examples: ['{staff-id}.tif'],
    }),
  },
  { ...closed, description: 'The retouched pictures that `portrait-gate prepare` makes the files from.' },
)

/** What `prepare` needs to know beside the rules that the files are to meet. */
export const PrepareSetting = Type.Object(
  {
    metadata: Type.Optional(
      Type.Unsafe<Partial<Record<(typeof FILLED)[number], string | string[]>>>(
        Type.Object(
          Object.fromEntries(
            FILLED.map((field) => [
              field,
              Type.Optional(Type.Union([Template, Type.Array(Template, { minItems: 1, uniqueItems: true })])),
            ]),
          ),
          {
            ...closed,
            minProperties: 1,
            description:
              'What is written into the metadata. Other fields are kept from the master where they are not forbidden.',
          },
        ),
      ),
    ),
    level: Type.Optional(
      Type.Object(
        {
          max: Type.Number({
            exclusiveMinimum: 0,
            maximum: 10,
            description: 'Up to this tilt, in degrees, the picture is turned so that the eyes are level.',
          }),
        },
        { ...closed, description: 'Levels the eyes before the crop; without it no picture is turned.' },
      ),
    ),
    sharpening: Type.Optional(
      Type.Object(
        {
          halos: Type.Number({
            exclusiveMinimum: 0,
            maximum: 100,
            description:
              'Up to this height of the halos at the eyes, in percent of that of the edges, as `sharpening-halo` measures them.',
          }),
        },
        {
          ...closed,
          description: 'Sharpens each file as far as its halos allow; without it none is sharpened.',
        },
      ),
    ),
    intent: Type.Optional(
      Type.Union([Type.Literal('perceptual'), Type.Literal('relative-colorimetric')], {
        description:
          'How colors are brought into the color space, black to black. Profiles of colorants and curves, as RGB spaces have them, know no difference; by tables masters are converted perceptually, and none is with relative-colorimetric. Without it each is converted as its profile allows.',
      }),
    ),
    tiff: Type.Optional(
      Type.Union([Type.Literal('none'), Type.Literal('lzw'), Type.Literal('zip')], {
        default: 'lzw',
        description: 'How TIFF files are compressed; none of it loses anything.',
      }),
    ),
  },
  {
    ...closed,
    minProperties: 1,
    description: 'What `portrait-gate prepare` needs to know beside the rules that the files are to meet.',
  },
)
export type PrepareSetting = Static<typeof PrepareSetting>
