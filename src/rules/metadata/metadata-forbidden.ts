import { Type } from '@sinclair/typebox'
import type { Metadata } from '../../measure/schema/metadata.ts'
import type { PrivateItem } from '../../measure/schema/metadata-facts.ts'
import { count, listed } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { unreadableText } from '../judging/unreadable.ts'
import { ITEM_WORDS } from './private-items.ts'

const IDS = Object.keys(ITEM_WORDS) as PrivateItem[]
/** Everything that tells where a picture was taken. */
const LOCATION: readonly PrivateItem[] = ['coordinates', 'place-names']
type Forbidden = PrivateItem | 'location'

const Options = Type.Array(
  Type.Unsafe<Forbidden>(
    Type.Union([
      Type.Literal('location', { description: 'Coordinates and place names.' }),
      ...IDS.map((id) => Type.Literal(id, { description: `That is ${ITEM_WORDS[id].noun}.` })),
    ]),
  ),
  {
    minItems: 1,
    uniqueItems: true,
    description: 'What must not stand in the metadata, in none of its places.',
  },
)

export const metadataForbidden = defineRule({
  id: 'metadata-forbidden',
  text: {
    title: 'Nothing in the metadata that should stay private',
    measures:
      'Every place in which each item may stand: EXIF with its GPS and maker parts, IPTC-IIM, XMP with the metadata of its components, PNG text. Told is where, never the value itself. Parts that only their maker can read, such as a maker note or data after the end of the picture, leave it unsure.',
    why: 'A portrait on a website gives away where it was taken, whose camera it was and who edited it, to anyone who looks.',
    fix: 'Export without location and camera data; keep creator and copyright.',
    example: 'metadata-forbidden: [location, camera-serial, lens-serial, owner]',
  },
  options: Options,
  needs: ['metadata'],
  judge({ measured }, forbidden) {
    const { metadata } = measured
    if (!metadata) return unmeasured(measured, 'The metadata')
    const items = [...new Set(forbidden.flatMap((item) => (item === 'location' ? LOCATION : [item])))]
    return judgeItems(metadata, items)
  },
})

function judgeItems(metadata: Metadata, items: readonly PrivateItem[]): Finding {
  const places = metadata.places.filter(({ item }) => items.includes(item))
  const nouns = listed(
    items.map((item) => ITEM_WORDS[item].noun),
    'or',
  )
  const expected = `no ${items.join(', ')}`
  if (places.length > 0) {
    const found = places.map(({ item, where }) => `${ITEM_WORDS[item].noun} (${shortened(where)})`)
    const taken = listed(places.map(({ item }) => ITEM_WORDS[item].noun))
    return {
      verdict: 'fail',
      measured: places.map(({ item }) => item).join(', '),
      expected,
      reason: `The file carries ${listed(found)}; the spec forbids that.`,
      fix: `Export again without ${taken}, or take it out of every place named; keep creator and copyright.`,
    }
  }
  const hiding = hidingPlaces(metadata, items)
  if (hiding.length > 0)
    return {
      verdict: 'unsure',
      measured: 'not to be told',
      expected,
      reason: `No place that can be read holds ${nouns}, but ${listed(hiding)}; export again without such parts, or check by eye.`,
    }
  return {
    verdict: 'pass',
    measured: 'nothing of it',
    expected,
    reason: `The file carries nothing that the spec forbids: no place holds ${nouns}.`,
  }
}

function hidingPlaces(metadata: Metadata, items: readonly PrivateItem[]): string[] {
  const opaque = items.some((item) => ITEM_WORDS[item].mayHide) ? metadata.opaque : []
  const unreadable = unreadableText(metadata)
  const parts = opaque.map(({ where, bytes }) =>
    bytes === null ? where : `${where} (${count(bytes, 'byte')})`,
  )
  return [
    ...(unreadable === null ? [] : [unreadable]),
    ...(parts.length === 0 ? [] : [`${listed(parts)} can't be looked into`]),
  ]
}

/** Most places named one by one. @choice longer lists are hard to read in a table's cell, no source. */
const MOST = 4

function shortened(where: readonly string[]): string {
  const more = where.length - MOST
  return more > 0 ? `${where.slice(0, MOST).join(', ')} and ${more} more` : listed(where)
}
