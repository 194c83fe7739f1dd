import { expect, test } from 'vitest'
import type { Metadata } from '../../../src/measure/schema/metadata.ts'
import { FIELDS } from '../../../src/measure/schema/metadata-facts.ts'
import { metadataRequired } from '../../../src/rules/metadata/metadata-required.ts'
import { GOOD, GOOD_NAME, metadata, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const conflict = {
  conflicts: [
    {
      field: 'copyright' as const,
      values: [
        { where: 'EXIF Copyright', values: ['Another Studio'] },
        { where: 'XMP dc:rights', values: ['© 2026 Osprey Lane Veterinary Group'] },
      ],
    },
  ],
}
const damaged = { unreadable: [{ where: 'XMP', why: 'damaged' as const }] }

testCases(metadataRequired, [
  {
    what: 'filled in',
    options: { creator: true, 'alt-text': true },
    verdict: 'pass',
    says: ['The creator is "Osprey Lane in-house studio"; the spec asks for one.'],
    found: 'creator "Osprey Lane in-house studio" and alt text "Portrait of Nkem Abara"',
    asked: 'creator and alt text',
  },
  {
    what: 'empty',
    options: { creator: true, 'alt-text': true },
    measured: metadata({ altText: null }),
    verdict: 'fail',
    says: [
      'The metadata has no alt text.',
      'fill in alt text (Iptc4xmpCore:AltTextAccessibility), and keep the metadata on export.',
    ],
  },
  {
    what: 'a text held',
    options: { copyright: 'Osprey Lane Veterinary Group' },
    verdict: 'pass',
    says: ['the spec asks for a copyright notice with "Osprey Lane Veterinary Group".'],
  },
  {
    what: 'a text missed',
    options: { copyright: 'Osprey Lane Veterinary Group' },
    measured: metadata({ copyright: '© 2026 Another Studio' }),
    verdict: 'fail',
    says: ['The copyright notice is "© 2026 Another Studio"; the spec asks for', '(dc:rights)'],
  },
  { what: 'a text and letter case', options: { copyright: 'OSPREY LANE' }, verdict: 'fail' },
  {
    what: 'exactly a text',
    options: { copyright: { equals: '© 2026 Osprey Lane Veterinary Group' } },
    verdict: 'pass',
  },
  {
    what: 'not exactly a text',
    options: { copyright: { equals: 'Osprey Lane Veterinary Group' } },
    verdict: 'fail',
    says: ['the spec asks for a copyright notice "Osprey Lane Veterinary Group".'],
  },
  { what: 'several texts, all there', options: { keywords: ['staff', 'portrait'] }, verdict: 'pass' },
  {
    what: 'several texts, one missing',
    options: { keywords: ['staff', 'outdoors'] },
    verdict: 'fail',
    says: ['keywords with "staff" and "outdoors"'],
  },
  { what: 'the sitter named', options: { 'person-shown': '{given} {family}' }, verdict: 'pass' },
  {
    what: 'the sitter named among others',
    options: { 'person-shown': '{given} {family}' },
    measured: metadata({ personShown: ['Ada Lund', 'Nkem Abara'] }),
    verdict: 'pass',
  },
  {
    what: 'somebody else named',
    options: { 'person-shown': '{given} {family}' },
    measured: metadata({ personShown: ['Ada Lund'] }),
    verdict: 'fail',
    says: ['The person shown is "Ada Lund"; the spec asks for a person shown with "Nkem Abara".'],
  },
  {
    what: 'the sitter in the alt text, accents left out of the file name',
    options: { 'alt-text': '{given} {family}' },
    measured: metadata({ altText: 'Portrait of Søren Bergström' }),
    name: { fields: { given: 'soren', family: 'bergstrom' } },
    verdict: 'pass',
  },
  {
    what: 'a name that splits in two ways, one of which fits',
    options: { 'person-shown': '{given} {family}' },
    measured: metadata({ personShown: ['Jones-Anna Smith'] }),
    name: {
      fields: { family: 'Smith-Jones', given: 'Anna' },
      otherReadings: [{ family: 'Smith', given: 'Jones-Anna' }],
    },
    verdict: 'pass',
  },
  {
    what: 'a field that the name does not tell',
    options: { 'person-shown': '{given} {family}' },
    name: { fields: { family: 'Abara' } },
    verdict: 'unsure',
    says: ['the file name does not give {given}; check by eye.'],
  },
  {
    what: 'an empty field is a failure whatever the name tells',
    options: { 'person-shown': '{given} {family}' },
    measured: metadata({ personShown: [] }),
    name: { fields: {} },
    verdict: 'fail',
    says: ['The metadata has no person shown.', 'fill in person shown with "{given} {family}"'],
  },
  {
    what: 'places that differ, one without the text',
    options: { copyright: 'Osprey Lane' },
    measured: metadata(conflict),
    verdict: 'fail',
    says: ['Not all places agree: EXIF Copyright says "Another Studio" and XMP dc:rights says'],
  },
  {
    what: 'places that differ, where any text will do: told',
    options: { copyright: true },
    measured: metadata(conflict),
    verdict: 'pass',
    says: ['Not all places agree'],
  },
  {
    what: 'empty, but a block is damaged',
    options: { 'alt-text': true },
    measured: metadata({ altText: null, ...damaged }),
    verdict: 'unsure',
    says: ['It may be in a part that could not be read (XMP is damaged); check by eye.'],
  },
  {
    what: 'filled in, although a block is damaged',
    options: { creator: true },
    measured: metadata(damaged),
    verdict: 'pass',
  },
  {
    what: 'a wrong text beside an empty field in a damaged file fails',
    options: { copyright: 'Another Studio', 'alt-text': true },
    measured: metadata({ altText: null, ...damaged }),
    verdict: 'fail',
  },
  { what: 'a rating', options: { rating: true }, verdict: 'pass', found: 'rating "5"' },
  {
    what: 'a rating of nothing',
    options: { rating: true },
    measured: metadata({ rating: null }),
    verdict: 'fail',
  },
  {
    what: 'a rating of zero is one',
    options: { rating: { equals: '0' } },
    measured: metadata({ rating: 0 }),
    verdict: 'pass',
  },
  { what: 'a capture time', options: { 'capture-time': '2026-03-05' }, verdict: 'pass' },
  {
    what: 'metadata not measured',
    options: { creator: true },
    measured: { metadata: null },
    verdict: 'unsure',
  },
  { what: 'unreadable file', options: { creator: true }, measured: UNREAD, verdict: 'skip' },
])

testRefused(metadataRequired, [
  ['nothing', {}],
  ['an unknown field', { author: true }],
  ['false', { creator: false }],
  ['an empty text', { creator: '' }],
  ['an empty list', { keywords: [] }],
  ['an open brace', { 'person-shown': '{given' }, 'has no partner'],
  ['an open brace in a list', { keywords: ['staff', '}'] }, 'has no partner'],
  ['empty braces', { copyright: { equals: '{}' } }, 'are empty'],
])

// Every text of the metadata is taken away; the good portrait's name stays.
const EMPTY: Partial<Metadata> = {
  creator: [],
  copyright: null,
  altText: null,
  personShown: [],
  keywords: [],
  captureTime: null,
  rating: null,
}
const FULL: Partial<Metadata> = {
  credit: 'Owl',
  source: 'Sitting 4',
  title: 'Abara',
  headline: 'Staff',
  description: 'A portrait',
  extendedDescription: 'A portrait before white paper',
  label: 'Pick',
  usageTerms: 'Staff page only',
  webStatement: 'https://example.org/rights',
}

test.each(FIELDS)('%s can be asked for', (field) => {
  const verdict = (changes: Partial<Metadata>) =>
    metadataRequired.judge(
      { measured: { ...GOOD, ...metadata(changes) }, name: GOOD_NAME },
      { [field]: true },
    ).verdict
  expect(verdict(EMPTY)).toBe('fail')
  expect(verdict(FULL)).toBe('pass')
})
