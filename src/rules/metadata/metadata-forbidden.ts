import { Type } from '@sinclair/typebox'
import type { Metadata } from '../../measure/schema/metadata.ts'
import type { PrivateItem } from '../../measure/schema/metadata-facts.ts'
import { capitalized } from '../../text/capitalized.ts'
import { count, listed } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { once } from '../judging/once.ts'
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
      ...IDS.map((id) => Type.Literal(id, { description: `${capitalized(ITEM_WORDS[id].noun)}.` })),
    ]),
  ),
  {
    minItems: 1,
    uniqueItems: true,
    description: 'What the metadata must not contain, anywhere.',
  },
)

export const metadataForbidden = defineRule({
  id: 'metadata-forbidden',
  severity: 'label',
  dependsOn: 'export',
  text: {
    title: 'No private data in the metadata',
    measures:
      'Every place where an item can be: EXIF with its GPS and maker parts, IPTC-IIM, XMP with the metadata of its components, PNG text. Reports say where an item is, never its value. Parts that only their maker can read, such as a maker note or data after the end of the picture, make the rule unsure.',
    why: 'The metadata of a portrait on a website shows anyone where it was taken, whose camera took it and who edited it.',
    fix: 'Export without location and camera data; keep creator and copyright.',
    example: 'metadata-forbidden: [location, camera-serial, lens-serial, owner]',
  },
  options: Options,
  needs: ['metadata'],
  saving: (forbidden) => ({ leaveOut: itemsOf(forbidden) }),
  judge({ measured }, forbidden) {
    const { metadata } = measured
    if (!metadata) return unmeasured(measured, 'The metadata')
    return judgeItems(metadata, askOf(forbidden))
  },
})

function itemsOf(forbidden: readonly Forbidden[]): PrivateItem[] {
  return [...new Set(forbidden.flatMap((item) => (item === 'location' ? LOCATION : [item])))]
}

const askOf = once((forbidden: readonly Forbidden[]) => {
  const items = itemsOf(forbidden)
  const nouns = listed(
    items.map((item) => ITEM_WORDS[item].noun),
    'or',
  )
  return { items, nouns, expected: `no ${items.join(', ')}` }
})

function judgeItems(metadata: Metadata, { items, nouns, expected }: ReturnType<typeof askOf>): Finding {
  const places = metadata.places.filter(({ item }) => items.includes(item))
  if (places.length > 0) {
    const found = places.map(({ item, where }) => `${ITEM_WORDS[item].noun} (${shortened(where)})`)
    const taken = listed(places.map(({ item }) => ITEM_WORDS[item].noun))
    return {
      verdict: 'fail',
      measured: places.map(({ item }) => item).join(', '),
      expected: `no ${places.map(({ item }) => item).join(', ')}`,
      reason: `The file contains ${listed(found)}, which the spec forbids.`,
      fix: `Clear every place named, or export again without ${taken}; keep creator and copyright.`,
      export: { from: 'file', leaveOut: [...new Set(places.map(({ item }) => item))] },
    }
  }
  const hiding = hidingPlaces(metadata, items)
  if (hiding.length > 0)
    return {
      verdict: 'unsure',
      measured: 'unknown',
      expected,
      reason: `Nothing that can be read contains ${nouns}, but ${listed(hiding)}. Export again without such parts, or check by eye.`,
    }
  return {
    verdict: 'pass',
    measured: 'none of it',
    expected,
    reason: `The file contains nothing that the spec forbids (${nouns}).`,
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
    ...(parts.length === 0 ? [] : [`${listed(parts)} can't be read`]),
  ]
}

/** Most places named one by one. @choice longer lists are hard to read in a table's cell, no source. */
const MOST = 4

function shortened(where: readonly string[]): string {
  const more = where.length - MOST
  return more > 0 ? `${where.slice(0, MOST).join(', ')} and ${more} more` : listed(where)
}
