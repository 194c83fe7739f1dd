import type { FieldId } from '../../measure/schema/metadata-facts.ts'
import type { Labels } from './labels.ts'

/**
 * Datasets of record 2 by field, and the most bytes that each takes.
 * @source IPTC-NAA Information Interchange Model version 4.2; the IPTC Photo Metadata Standard 2025.1 maps them to XMP.
 */
const DATASETS: readonly (readonly [FieldId, number, number])[] = [
  ['title', 5, 64],
  ['keywords', 25, 64],
  ['creator', 80, 32],
  ['headline', 105, 256],
  ['credit', 110, 32],
  ['source', 115, 32],
  ['copyright', 116, 128],
  ['description', 120, 2000],
]

/** Date and time of capture, datasets of record 2. @source as {@link DATASETS}: year, month, day; hours, minutes, seconds and the zone. */
const DATE = 55
const TIME = 60

/** The values that a dataset holds once at most come first; By-line and Keywords repeat. */
const REPEATABLE: readonly FieldId[] = ['creator', 'keywords']

/** IPTC-IIM with what XMP says too, in UTF-8, each value cut to its dataset's length (MWG Guidelines 2.0, 5). */
export function iimDatasets({ fields }: Labels): Buffer {
  const parts = [dataset(1, 90, Buffer.from('\x1b%G', 'latin1')), dataset(2, 0, Buffer.from([0, 4]))]
  for (const [field, number, most] of DATASETS) {
    const values = fields[field] ?? []
    const kept = REPEATABLE.includes(field) ? values : values.slice(0, 1)
    for (const value of kept) parts.push(dataset(2, number, cut(value, most)))
  }
  const [captured = ''] = fields['capture-time'] ?? []
  const time = /^(\d{4})-(\d\d)-(\d\d)(?:T(\d\d):(\d\d):(\d\d)(?:\.\d+)?(Z|[+-]\d\d:\d\d)?)?$/.exec(captured)
  if (time) {
    const [, year, month, day, hour, minute, second, zone] = time
    parts.push(dataset(2, DATE, Buffer.from(`${year}${month}${day}`)))
    // Without a zone the standard knows no time.
    if (hour && zone) {
      const offset = zone === 'Z' ? '+0000' : zone.replace(':', '')
      parts.push(dataset(2, TIME, Buffer.from(`${hour}${minute}${second}${offset}`)))
    }
  }
  return Buffer.concat(parts)
}

function dataset(record: number, number: number, value: Buffer): Buffer {
  const head = Buffer.from([0x1c, record, number, 0, 0])
  head.writeUInt16BE(value.length, 3)
  return Buffer.concat([head, value])
}

/** A text in UTF-8, cut between characters. */
function cut(text: string, most: number): Buffer {
  const bytes = Buffer.from(text)
  if (bytes.length <= most) return bytes
  let end = most
  while (end > 0 && ((bytes[end] as number) & 0xc0) === 0x80) end--
  return bytes.subarray(0, end)
}
