import { LIMITS } from '../../src/measure/file/read-file.ts'
import type { Decodable } from '../../src/measure/schema/formats.ts'
import type { Cost } from './measure-each.ts'

/** What the hostile pictures of one format took. */
export interface Row {
  readonly format: Decodable
  readonly files: number
  /** How many are measured all the same. */
  readonly whole: number
  /** Largest memory of a check by two workers, in MiB; null where the system does not tell. */
  readonly peakMiB: number | null
  readonly dearest: Cost
  /** The same by a spec that refuses the format. */
  readonly refusedMiB: number | null
  /** How many of a refused format were looked into all the same. */
  readonly lookedInto: number
}

const mib = (value: number | null) => (value === null ? '?' : Math.round(value).toString())

export function hostilePage(rows: readonly Row[]): string {
  const lines = rows.map(
    ({ format, files, whole, peakMiB, dearest, refusedMiB, lookedInto }) =>
      `| ${format} | ${files} | ${whole} | ${mib(peakMiB)} | ${dearest.seconds.toFixed(1)} (${dearest.file}, ${dearest.fate}) | ${mib(refusedMiB)} | ${lookedInto} |`,
  )
  return `<!-- Made by npm run hostile -- --write; do not edit. -->
# Hostile pictures

What a delivery of hostile pictures takes: pictures just within the limits and beyond them, of one color, of noise, deep, turned,
interlaced, progressive, with large previews, with a face as large as the frame; and those cut off, with absurd sizes, hostile metadata and doubled parts.

| format | files | measured all the same | peak by two workers, MiB | dearest file, s of processor | peak when the spec refuses the format, MiB | of which looked into |
| --- | --: | --: | --: | --- | --: | --: |
${lines.join('\n')}

Peak: of the whole process, faces found, every rule judged and the HTML report made. A picture may take ${LIMITS.memory / 1024 ** 2} MiB to decode, as its header tells; all workers
share a budget ([threats.md](threats.md)).
`
}
