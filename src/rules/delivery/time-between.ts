import type { DeliveredFile } from '../contract/delivery-rule.ts'

/** A minute, ms. @choice definition. */
const MINUTE = 60_000
/** An hour, ms. @choice definition. */
const HOUR = 60 * MINUTE
/** A day, ms. @choice definition. */
const DAY = 24 * HOUR

/** Share of a group whose capture times must be recorded. @choice most of them, no source. */
const RECORDED = 0.5

/**
 * When one group of files was taken beside another, by the capture times that their metadata record, as the clocks of the cameras
 * told them: "13 days after the others". Null where most of a group has none.
 */
export function timeBetween(
  group: readonly DeliveredFile[],
  others: readonly DeliveredFile[],
): string | null {
  const [own, other] = [spanOf(group), spanOf(others)]
  if (!own || !other) return null
  if (own.first > other.last) return `${durationText(own.first - other.last)} after the others`
  if (own.last < other.first) return `${durationText(other.first - own.last)} before the others`
  return 'at the same time as the others'
}

function spanOf(files: readonly DeliveredFile[]): { readonly first: number; readonly last: number } | null {
  const times = files.flatMap(({ measured }) => clockOf(measured.metadata?.captureTime ?? null) ?? [])
  if (times.length === 0 || times.length < RECORDED * files.length) return null
  return { first: Math.min(...times), last: Math.max(...times) }
}

/** The clock's time in ms, its zone left aside: not every camera records one. */
function clockOf(captureTime: string | null): number | null {
  const clock = captureTime && /^\d{4}-\d\d-\d\d[T ]\d\d:\d\d:\d\d/.exec(captureTime)?.[0]
  const time = clock ? Date.parse(`${clock.replace(' ', 'T')}Z`) : Number.NaN
  return Number.isNaN(time) ? null : time
}

function durationText(ms: number): string {
  const [unit, noun] = ms >= 2 * DAY ? [DAY, 'day'] : ms >= 2 * HOUR ? [HOUR, 'hour'] : [MINUTE, 'minute']
  const number = Math.max(1, Math.round(ms / unit))
  return `${number} ${noun}${number === 1 ? '' : 's'}`
}
