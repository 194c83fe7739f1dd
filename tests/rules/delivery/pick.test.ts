import { expect, test } from 'vitest'
import type { Metadata } from '../../../src/measure/schema/metadata.ts'
import { namesFrame } from '../../../src/rules/delivery/pick.ts'

const NOTHING: Metadata = {
  creator: [],
  copyright: null,
  credit: null,
  source: null,
  title: null,
  headline: null,
  description: null,
  altText: null,
  extendedDescription: null,
  personShown: [],
  keywords: [],
  captureTime: null,
  rating: null,
  label: null,
  usageTerms: null,
  webStatement: null,
  gps: false,
  places: [],
  conflicts: [],
  origin: {
    rawFileName: null,
    preservedFileName: null,
    documentId: null,
    originalDocumentId: null,
    derivedFrom: [],
    ancestors: [],
    imageNumber: null,
    imageUniqueId: null,
  },
  statedSizes: [],
  previews: [],
  opaque: [],
  unreadable: [],
}

const raw = (rawFileName: string) => ({ origin: { ...NOTHING.origin, rawFileName } })
const time = (captureTime: string) => ({ captureTime })

test.each([
  ['a name with another extension and letter case', 'OLV_4711.tif', raw('olv_4711.CR3'), 'picked'],
  ['another name', 'OLV_4711', raw('OLV_4712.CR3'), 'other'],
  ['no name at all', 'OLV_4711', {}, 'unknown'],
  ['a frame number in the raw name, zeros not counted', '4711', raw('OLV_04711.CR3'), 'picked'],
  ['another frame number', '4711', raw('OLV_4712.CR3'), 'other'],
  ["the camera's own number", '512', { origin: { ...NOTHING.origin, imageNumber: '512' } }, 'picked'],
  [
    'the name on import',
    'OLV_4711',
    { origin: { ...NOTHING.origin, preservedFileName: 'OLV_4711.CR3' } },
    'picked',
  ],
  [
    'an ancestor document',
    'xmp.did:77',
    { origin: { ...NOTHING.origin, ancestors: ['xmp.did:77'] } },
    'picked',
  ],
  [
    'a derived-from document',
    'xmp.did:78',
    { origin: { ...NOTHING.origin, derivedFrom: ['xmp.did:78'] } },
    'picked',
  ],
  [
    'the second, where neither tells a fraction',
    '2027-03-04 10:11:12',
    time('2027-03-04T10:11:12'),
    'picked',
  ],
  ['another fraction of the second', '2027-03-04T10:11:12.25', time('2027-03-04T10:11:12.75'), 'other'],
  ['the fraction, written longer', '2027-03-04T10:11:12.25', time('2027-03-04T10:11:12.250'), 'picked'],
  ['a fraction that only one tells', '2027-03-04T10:11:12.25', time('2027-03-04T10:11:12'), 'unknown'],
  ['another second', '2027-03-04T10:11:12', time('2027-03-04T10:11:13'), 'other'],
  ['one moment in two zones', '2027-03-04T10:11:12Z', time('2027-03-04T12:11:12+02:00'), 'picked'],
  ['a date alone', '2027-03-04T10:11:12', time('2027-03-04'), 'unknown'],
] satisfies [string, string, Partial<Metadata>, string][])('%s', (_, pick, metadata, verdict) => {
  expect(namesFrame({ ...NOTHING, ...metadata }, pick).verdict).toBe(verdict)
})
