import { type Static, Type } from '@sinclair/typebox'
import { Conflict, Opaque, Origin, Places, StatedSize, Unreadable } from './metadata-facts.ts'
import { Preview } from './preview-facts.ts'

const text = (description: string) => Type.Union([Type.String({ description }), Type.Null()])
const texts = (description: string) => Type.Array(Type.String(), { description })

/**
 * What the metadata of a file says, with Exif, IPTC-IIM and XMP reconciled as the MWG Guidelines for Handling Image
 * Metadata 2.0 (2010) ask. All texts are a stranger's, trimmed and cut to 2,000 characters; lists to 100.
 */
export const Metadata = Type.Object(
  {
    creator: texts('Who made the picture: EXIF Artist, IPTC By-line, XMP dc:creator.'),
    copyright: text('Copyright notice: EXIF Copyright, IPTC Copyright Notice, XMP dc:rights.'),
    credit: text('Credit line: IPTC Credit, XMP photoshop:Credit.'),
    source: text('IPTC Source, XMP photoshop:Source.'),
    title: text('IPTC Object Name, XMP dc:title.'),
    headline: text('IPTC Headline, XMP photoshop:Headline.'),
    description: text('EXIF ImageDescription, IPTC Caption/Abstract, XMP dc:description.'),
    altText: text('For those who do not see the picture: XMP Iptc4xmpCore:AltTextAccessibility.'),
    extendedDescription: text('XMP Iptc4xmpCore:ExtDescrAccessibility.'),
    personShown: texts('XMP Iptc4xmpExt:PersonInImage and PersonInImageWDetails.'),
    keywords: texts('IPTC Keywords, XMP dc:subject.'),
    captureTime: text(
      'ISO 8601, with fraction and zone where known; local time of the camera without a zone.',
    ),
    rating: Type.Union([
      Type.Number({ minimum: -1, maximum: 5, description: 'XMP xmp:Rating; -1 is rejected, 0 is unrated.' }),
      Type.Null(),
    ]),
    label: text("XMP xmp:Label, a word of the program's choosing."),
    usageTerms: text('XMP xmpRights:UsageTerms.'),
    webStatement: text('Address of the rights statement: XMP xmpRights:WebStatement.'),
    gps: Type.Boolean({ description: 'Coordinates stand somewhere in the file.' }),
    places: Type.Array(Places, { description: 'Where private items stand; never their values.' }),
    conflicts: Type.Array(Conflict),
    origin: Origin,
    statedSizes: Type.Array(StatedSize),
    previews: Type.Array(Preview),
    opaque: Type.Array(Opaque, { description: "Parts whose content can't be read." }),
    unreadable: Type.Array(Unreadable, { description: 'Blocks that could not be read, whole or in part.' }),
  },
  { additionalProperties: false },
)
export type Metadata = Static<typeof Metadata>
