import { type Static, type TSchema, Type } from '@sinclair/typebox'
import { PRIVATE_ITEMS, type PrivateItem } from './private-items.ts'

const closed = { additionalProperties: false }
const orNull = <S extends TSchema>(schema: S) => Type.Union([schema, Type.Null()])
const text = (description: string) => Type.Union([Type.String({ description }), Type.Null()])
const texts = (description: string) => Type.Array(Type.String(), { description })

/** A block that could not be read, so that what it holds is unknown. */
export const Unreadable = Type.Object(
  {
    where: Type.String({ description: 'The block: "EXIF", "XMP", "IPTC-IIM", ...' }),
    why: Type.Union(
      [
        Type.Literal('damaged'),
        Type.Literal('too-large'),
        Type.Literal('too-many'),
        Type.Literal('unsupported'),
      ],
      {
        description:
          'damaged: not well-formed or cut off; too-large: beyond 1 MiB; too-many: more blocks of a kind than are read; unsupported: a form that is not read.',
      },
    ),
  },
  closed,
)
export type Unreadable = Static<typeof Unreadable>

/** A part whose content can't be read, because only its maker knows its form. */
export const Opaque = Type.Object(
  { where: Type.String(), bytes: orNull(Type.Integer({ minimum: 0 })) },
  closed,
)
export type Opaque = Static<typeof Opaque>

export { PRIVATE_ITEMS, type PrivateItem }

export const Places = Type.Object(
  {
    item: Type.Unsafe<PrivateItem>(Type.Union(PRIVATE_ITEMS.map((item) => Type.Literal(item)))),
    where: texts(
      'Every place in which it stands, such as "EXIF GPSLatitude" or "IPTC 2:90 City"; never its value.',
    ),
  },
  closed,
)
export type Places = Static<typeof Places>

/** Fields that IPTC Photo Metadata and the MWG Guidelines define. The option names of `metadata-required`. */
export const FIELDS = [
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
  'capture-time',
  'rating',
  'label',
  'usage-terms',
  'web-statement',
] as const
export type FieldId = (typeof FIELDS)[number]

export const Conflict = Type.Object(
  {
    field: Type.Unsafe<FieldId>(Type.Union(FIELDS.map((field) => Type.Literal(field)))),
    values: Type.Array(Type.Object({ where: Type.String(), values: Type.Array(Type.String()) }, closed), {
      description: 'What the places say that should say the same.',
    }),
  },
  closed,
)
export type Conflict = Static<typeof Conflict>

/** What a file says of the frame and the documents that it was made from. */
export const Origin = Type.Object(
  {
    rawFileName: text("Name of the camera's raw file: XMP crs:RawFileName."),
    preservedFileName: text('Name on import: XMP xmpMM:PreservedFileName.'),
    documentId: text('XMP xmpMM:DocumentID.'),
    originalDocumentId: text('The first document of the chain: XMP xmpMM:OriginalDocumentID.'),
    derivedFrom: Type.Array(Type.String(), {
      description: 'Identifiers of the document that this one was saved from: XMP xmpMM:DerivedFrom.',
    }),
    ancestors: Type.Array(Type.String(), {
      description: 'Identifiers of documents that parts were pasted from: XMP photoshop:DocumentAncestors.',
    }),
    imageNumber: text("The camera's running number of the frame: EXIF ImageNumber, XMP aux:ImageNumber."),
    imageUniqueId: text('EXIF ImageUniqueID, given to the frame by the camera.'),
  },
  closed,
)
export type Origin = Static<typeof Origin>

/** A pixel size that metadata states, which should be that of the pixels. */
export const StatedSize = Type.Object(
  {
    where: Type.String(),
    widthPx: Type.Integer({ minimum: 0 }),
    heightPx: Type.Integer({ minimum: 0 }),
    stale: Type.Boolean({ description: 'It is not the size of the pixels as stored.' }),
  },
  closed,
)
export type StatedSize = Static<typeof StatedSize>
