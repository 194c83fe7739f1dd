import { type Static, Type } from '@sinclair/typebox'
import { closed, orNull } from './common.ts'
import { Fault } from './fault.ts'
import { Other } from './others.ts'

export const PROFILES = ['sRGB', 'Adobe RGB (1998)', 'Display P3', 'ProPhoto RGB', 'other', 'none'] as const
export const Profile = Type.Union(
  PROFILES.map((name) => Type.Literal(name)),
  { description: 'Identity of the ICC profile by its colorants and curve, never by the name it carries.' },
)
export type Profile = (typeof PROFILES)[number]

export const Color = Type.Object(
  {
    space: Type.Union([Type.Literal('rgb'), Type.Literal('gray'), Type.Literal('cmyk')]),
    profile: Type.Unsafe<Profile>(Profile),
    profileName: orNull(
      Type.String({ description: 'The name the profile carries, as text from a stranger.' }),
    ),
  },
  closed,
)
export type Color = Static<typeof Color>

export const Jpeg = Type.Object(
  {
    quality: orNull(
      Type.Integer({
        minimum: 1,
        maximum: 100,
        description: 'IJG quality; null when the tables are not the IJG scaling of ITU-T T.81 Annex K.',
      }),
    ),
    tables: Type.Union([Type.Literal('ijg'), Type.Literal('non-standard')]),
    subsampling: Type.String({
      description:
        'Chroma subsampling such as 4:4:4 or 4:2:0; "none" for one component; "other" when unusual.',
    }),
    progressive: Type.Boolean(),
  },
  closed,
)
export type Jpeg = Static<typeof Jpeg>

/** What the header and the bytes say; measured for every file. Null where the file can't be read that far. */
export const fileProperties = {
  measurer: Type.Integer({ description: 'Version of the definitions these values follow.' }),
  file: Type.String({ description: 'Path relative to the delivery root, with /.' }),
  bytes: Type.Integer({ minimum: 0 }),
  sha256: orNull(Type.String({ pattern: '^[0-9a-f]{64}$' })),
  format: orNull(
    Type.String({ description: 'From the content, not the extension: jpeg, png, tiff, webp, ...' }),
  ),
  fault: orNull(Fault),
  widthPx: orNull(Type.Integer({ description: 'Displayed width (EXIF orientation applied).' })),
  heightPx: orNull(Type.Integer()),
  fullSize: Type.Optional(
    Type.Object(
      { widthPx: Type.Integer(), heightPx: Type.Integer() },
      {
        ...closed,
        description:
          'Displayed size of a camera frame of which a smaller picture was measured, as its raw file tells it; absent for any other.',
      },
    ),
  ),
  orientationTag: orNull(
    Type.Integer({ minimum: 1, maximum: 8, description: 'EXIF orientation as stored; null when absent.' }),
  ),
  ppi: orNull(Type.Number()),
  bitsPerChannel: orNull(Type.Integer()),
  channels: orNull(Type.Integer()),
  hasAlpha: orNull(Type.Boolean()),
  color: orNull(Color),
  jpeg: orNull(Jpeg),
  peakChromaC: orNull(
    Type.Number({
      minimum: 0,
      description:
        'The CIE C*ab (D50) that the most colorful 0.5 % of the pixels reach; about 0 without color; null when not decoded.',
    }),
  ),
  others: orNull(
    Type.Array(Other, { description: 'What the file holds beside the picture that was measured.' }),
  ),
  intact: orNull(
    Type.Boolean({ description: 'Decodes to the last row with no warning; null when not decoded.' }),
  ),
}
export const FileMeasurements = Type.Object(fileProperties, closed)
export type FileMeasurements = Static<typeof FileMeasurements>
