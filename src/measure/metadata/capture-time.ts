import { exifText } from '../file/exif/exif.ts'
import type { Blocks } from './blocks/blocks.ts'
import { xmpText } from './formats/xmp.ts'

/** DateTimeOriginal, OffsetTimeOriginal and SubSecTimeOriginal. @source CIPA DC-008 (Exif), 4.6.5 F and G. */
const EXIF = { time: 0x9003, zone: 0x9011, fraction: 0x9291 } as const
/** Date Created and Time Created. @source IIM 4.2, 2:55 and 2:60. */
const IIM = { date: 55, time: 60 } as const

/**
 * When the picture was taken, in the form of ISO 8601 as far as it is known: `2013-05-10T15:21:35.12+02:00`. Exif goes
 * before XMP before IIM (MWG Guidelines 2.0, chapter 5, "Date/Time"); what one leaves out of the same second, a
 * fraction or the zone, is taken from another. Null when no place holds a possible date.
 */
export function captureTime(blocks: Blocks): string | null {
  const times = [...exifTimes(blocks), ...xmpTimes(blocks), ...iimTimes(blocks)].filter(
    (time) => time !== null,
  )
  const [first] = times
  if (first === undefined) return null
  const same = times.filter((time) => time.startsWith(first))
  return same.reduce((longest, time) => (time.length > longest.length ? time : longest))
}

function exifTimes({ exif }: Blocks): (string | null)[] {
  return exif.map((block) => {
    const text = exifText(block.exif, EXIF.time) ?? ''
    const fraction = exifText(block.exif, EXIF.fraction)
    const zone = exifText(block.exif, EXIF.zone)
    const iso = text.replace(/^(\d{4})[:-](\d\d)[:-](\d\d)[ T]/, '$1-$2-$3T')
    return possible(iso, fraction !== null && /^\d+$/.test(fraction) ? fraction : '', zone ?? '')
  })
}

function xmpTimes({ xmp }: Blocks): (string | null)[] {
  return xmp.flatMap((packet) =>
    ['photoshop:DateCreated', 'exif:DateTimeOriginal'].map((name) => possible(xmpText(packet, name) ?? '')),
  )
}

function iimTimes({ iim }: Blocks): (string | null)[] {
  const date = (iim?.values(IIM.date)[0] ?? '').replace(/^(\d{4})(\d\d)(\d\d)$/, '$1-$2-$3')
  const time = (iim?.values(IIM.time)[0] ?? '').replace(
    /^(\d\d)(\d\d)(\d\d)(?:([+-]\d\d)(\d\d))?$/,
    'T$1:$2:$3$4:$5',
  )
  return [possible(`${date}${time.replace(/:$/, '')}`)]
}

const FORM = /^(\d{4})(?:-(\d\d)(?:-(\d\d)(?:T(\d\d):(\d\d)(?::(\d\d)(\.\d{1,9})?)?(Z|[+-]\d\d:\d\d)?)?)?)?$/

/**
 * The time with its fraction and zone when there can be such a time, else null. Cameras write zeros for unknown.
 * @source ISO 8601-1: hours to 23, minutes to 59, and seconds to 60 for leap seconds.
 */
function possible(iso: string, fraction = '', zone = ''): string | null {
  const match = FORM.exec(iso)
  if (!match) return null
  const [year, month = 1, day = 1, hour = 0, minute = 0, second = 0] = match
    .slice(1, 7)
    .map((digits) => (digits === undefined ? undefined : Number(digits)))
  if (year === undefined || year === 0 || hour > 23 || minute > 59 || second > 60) return null
  const date = new Date(Date.UTC(year, month - 1, day))
  if (date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day) return null
  if (match[6] === undefined) return iso
  const withFraction = match[7] === undefined && fraction !== '' ? `${iso}.${fraction.slice(0, 9)}` : iso
  return match[8] === undefined && /^(Z|[+-]\d\d:\d\d)$/.test(zone) ? `${withFraction}${zone}` : withFraction
}
