import { expect, test } from 'vitest'
import { PRIVATE_ITEMS } from '../../../src/measure/schema/metadata-facts.ts'
import { metadataForbidden } from '../../../src/rules/metadata/metadata-forbidden.ts'
import { GOOD, GOOD_NAME, metadata, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const GPS = { item: 'coordinates' as const, where: ['EXIF GPSLatitude', 'EXIF GPSLongitude'] }
const CITY = { item: 'place-names' as const, where: ['IPTC 2:90 City'] }
const SERIAL = { item: 'camera-serial' as const, where: ['EXIF BodySerialNumber'] }
const NOTE = { where: 'EXIF MakerNote', bytes: 5243 }

testCases(metadataForbidden, [
  {
    what: 'clean',
    options: ['location', 'camera-serial'],
    verdict: 'pass',
    says: ['(coordinates, place names or a camera serial number).'],
    found: 'none of it',
    asked: 'no coordinates, place-names, camera-serial',
  },
  {
    what: 'coordinates',
    options: ['location'],
    measured: metadata({ places: [GPS] }),
    verdict: 'fail',
    says: [
      'The file contains coordinates (EXIF GPSLatitude and EXIF GPSLongitude), which the spec forbids.',
      'Clear every place named, or export again without coordinates; keep creator and copyright.',
    ],
    found: 'coordinates',
  },
  {
    what: 'a city',
    options: ['location'],
    measured: metadata({ places: [CITY] }),
    verdict: 'fail',
    says: ['place names (IPTC 2:90 City)'],
  },
  {
    what: 'a city where only coordinates are forbidden',
    options: ['coordinates'],
    measured: metadata({ places: [CITY] }),
    verdict: 'pass',
  },
  {
    what: 'several items',
    options: ['location', 'camera-serial'],
    measured: metadata({ places: [GPS, SERIAL] }),
    verdict: 'fail',
    says: ['and a camera serial number (EXIF BodySerialNumber)'],
    found: 'coordinates, camera-serial',
  },
  {
    what: 'an item that is not forbidden',
    options: ['owner'],
    measured: metadata({ places: [GPS, SERIAL] }),
    verdict: 'pass',
  },
  {
    what: 'more places than a sentence holds',
    options: ['place-names'],
    measured: metadata({ places: [{ item: 'place-names', where: ['a', 'b', 'c', 'd', 'e', 'f'] }] }),
    verdict: 'fail',
    says: ['place names (a, b, c, d and 2 more)'],
  },
  {
    what: 'a maker note may hide a serial number',
    options: ['camera-serial'],
    measured: metadata({ opaque: [NOTE] }),
    verdict: 'unsure',
    says: ["but EXIF MakerNote (5243 bytes) can't be read", 'check by eye'],
  },
  {
    what: 'a maker note hides no rating',
    options: ['rating', 'software'],
    measured: metadata({ opaque: [NOTE] }),
    verdict: 'pass',
  },
  {
    what: 'what is found is a failure whatever else hides',
    options: ['location'],
    measured: metadata({ places: [GPS], opaque: [NOTE] }),
    verdict: 'fail',
  },
  {
    what: 'a damaged block',
    options: ['software'],
    measured: metadata({ unreadable: [{ where: 'EXIF', why: 'damaged' }] }),
    verdict: 'unsure',
    says: ['EXIF is damaged'],
  },
  {
    what: 'a part of unknown size',
    options: ['owner'],
    measured: metadata({ opaque: [{ where: 'further pages of the TIFF', bytes: null }] }),
    verdict: 'unsure',
    says: ["but further pages of the TIFF can't"],
  },
  { what: 'metadata not measured', options: ['location'], measured: { metadata: null }, verdict: 'unsure' },
  { what: 'unreadable file', options: ['location'], measured: UNREAD, verdict: 'skip' },
])

testRefused(metadataForbidden, [
  ['an empty list', []],
  ['an item twice', ['location', 'location']],
  ['an unknown item', ['gps']],
  ['a word', 'location'],
])

test.each(PRIVATE_ITEMS)('%s can be forbidden', (item) => {
  const measured = { ...GOOD, ...metadata({ places: [{ item, where: ['somewhere'] }] }) }
  expect(metadataForbidden.judge({ measured, name: GOOD_NAME }, [item])).toMatchObject({
    verdict: 'fail',
    measured: item,
  })
})
