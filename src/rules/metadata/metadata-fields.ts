import type { Metadata } from '../../measure/schema/metadata.ts'
import type { FieldId } from '../../measure/schema/metadata-facts.ts'

/** A field of the photo metadata in the words of the trade, and where to read its values. */
interface FieldWords {
  readonly noun: string
  /** Null for a noun in the plural. */
  readonly article: 'a' | 'an' | null
  /** Where an editor writes it. */
  readonly place: string
  readonly values: (metadata: Metadata) => readonly string[]
}

const one = (value: string | number | null) => (value === null ? [] : [String(value)])

/** By the ids that the options of `metadata-required` use. */
export const FIELD_WORDS: Readonly<Record<FieldId, FieldWords>> = {
  creator: { noun: 'creator', article: 'a', place: 'dc:creator', values: ({ creator }) => creator },
  copyright: {
    noun: 'copyright notice',
    article: 'a',
    place: 'dc:rights',
    values: ({ copyright }) => one(copyright),
  },
  credit: {
    noun: 'credit line',
    article: 'a',
    place: 'photoshop:Credit',
    values: ({ credit }) => one(credit),
  },
  source: { noun: 'source', article: 'a', place: 'photoshop:Source', values: ({ source }) => one(source) },
  title: { noun: 'title', article: 'a', place: 'dc:title', values: ({ title }) => one(title) },
  headline: {
    noun: 'headline',
    article: 'a',
    place: 'photoshop:Headline',
    values: ({ headline }) => one(headline),
  },
  description: {
    noun: 'description',
    article: 'a',
    place: 'dc:description',
    values: ({ description }) => one(description),
  },
  'alt-text': {
    noun: 'alt text',
    article: 'an',
    place: 'Iptc4xmpCore:AltTextAccessibility',
    values: ({ altText }) => one(altText),
  },
  'extended-description': {
    noun: 'extended description',
    article: 'an',
    place: 'Iptc4xmpCore:ExtDescrAccessibility',
    values: ({ extendedDescription }) => one(extendedDescription),
  },
  'person-shown': {
    noun: 'person shown',
    article: 'a',
    place: 'Iptc4xmpExt:PersonInImage',
    values: ({ personShown }) => personShown,
  },
  keywords: { noun: 'keywords', article: null, place: 'dc:subject', values: ({ keywords }) => keywords },
  'capture-time': {
    noun: 'capture time',
    article: 'a',
    place: 'EXIF DateTimeOriginal',
    values: ({ captureTime }) => one(captureTime),
  },
  rating: { noun: 'rating', article: 'a', place: 'xmp:Rating', values: ({ rating }) => one(rating) },
  label: { noun: 'label', article: 'a', place: 'xmp:Label', values: ({ label }) => one(label) },
  'usage-terms': {
    noun: 'usage terms',
    article: null,
    place: 'xmpRights:UsageTerms',
    values: ({ usageTerms }) => one(usageTerms),
  },
  'web-statement': {
    noun: 'web statement of rights',
    article: 'a',
    place: 'xmpRights:WebStatement',
    values: ({ webStatement }) => one(webStatement),
  },
}
