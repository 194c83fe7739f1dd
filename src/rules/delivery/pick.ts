import type { Metadata } from '../../measure/schema/metadata.ts'

export interface PickAnswer {
  /** Whether the metadata names the picked frame, names another one, or does not tell. */
  readonly verdict: 'picked' | 'other' | 'unknown'
  /** What the metadata names. */
  readonly found: string | null
}

// ISO 8601 date and time, also with a space, a fraction and a zone.
const TIME = /^(\d{4}-\d\d-\d\d)[T ](\d\d:\d\d:\d\d)(?:[.,](\d{1,9}))?(Z|[+-]\d\d:\d\d)?$/

/**
 * Compares a pick with what the metadata says of the frame. A capture time is compared with the capture time, a number
 * with the camera's frame number and the number in the original file name, anything else with names and documents.
 */
export function namesFrame(metadata: Metadata, pick: string): PickAnswer {
  const time = TIME.exec(pick)
  if (time) return byTime(metadata.captureTime, time)
  return /^\d+$/.test(pick) ? byNumber(metadata.origin, pick) : byName(metadata.origin, pick)
}

function byTime(captureTime: string | null, wanted: RegExpExecArray): PickAnswer {
  const found = captureTime === null ? null : TIME.exec(captureTime)
  if (!found) return { verdict: 'unknown', found: captureTime }
  const [, date, clock, fraction, zone] = found
  const [, wantedDate, wantedClock, wantedFraction, wantedZone] = wanted
  const answer = (verdict: PickAnswer['verdict']): PickAnswer => ({ verdict, found: captureTime })
  // With both zones told, one moment may be written in two ways.
  if (zone !== undefined && wantedZone !== undefined && zone !== wantedZone) {
    const apart =
      Date.parse(`${date}T${clock}${zone}`) - Date.parse(`${wantedDate}T${wantedClock}${wantedZone}`)
    if (apart !== 0) return answer('other')
  } else if (date !== wantedDate || clock !== wantedClock) return answer('other')
  if (fraction === undefined && wantedFraction === undefined) return answer('picked')
  // A burst has several frames a second: the second alone does not tell.
  if (fraction === undefined || wantedFraction === undefined) return answer('unknown')
  const digits = Math.min(fraction.length, wantedFraction.length)
  return answer(fraction.slice(0, digits) === wantedFraction.slice(0, digits) ? 'picked' : 'other')
}

function byNumber(origin: Metadata['origin'], pick: string): PickAnswer {
  const names = [origin.rawFileName, origin.preservedFileName].filter((name) => name !== null)
  const numbered = names.flatMap((name) => {
    const digits = /(\d+)(?:\.[^.]*)?$/.exec(name)?.[1]
    return digits === undefined ? [] : [{ name, digits }]
  })
  const match = numbered.find(({ digits }) => Number(digits) === Number(pick))
  if (match) return { verdict: 'picked', found: match.name }
  if (origin.imageNumber !== null && Number(origin.imageNumber) === Number(pick))
    return { verdict: 'picked', found: origin.imageNumber }
  const other = numbered[0]?.name ?? null
  return { verdict: other === null ? 'unknown' : 'other', found: other }
}

function byName(origin: Metadata['origin'], pick: string): PickAnswer {
  const wanted = stem(pick)
  const names = [origin.rawFileName, origin.preservedFileName].filter((name) => name !== null)
  const match = names.find((name) => stem(name) === wanted)
  if (match !== undefined) return { verdict: 'picked', found: match }
  const documents = [
    origin.documentId,
    origin.originalDocumentId,
    origin.imageUniqueId,
    ...origin.derivedFrom,
    ...origin.ancestors,
  ].filter((id) => id !== null)
  const document = documents.find((id) => id === pick || stem(id) === wanted)
  if (document !== undefined) return { verdict: 'picked', found: document }
  const other = names[0] ?? null
  return { verdict: other === null ? 'unknown' : 'other', found: other }
}

/** A file name without folders and extension; capital and small letters don't count, as in most cameras' cards. */
function stem(name: string): string {
  const file = name.normalize('NFC').split(/[/\\]/).at(-1) ?? name
  return file.replace(/\.[A-Za-z0-9]{1,8}$/, '').toLowerCase()
}
