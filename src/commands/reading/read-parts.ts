import { isDeepStrictEqual } from 'node:util'
import type { Host } from '../../checking/host.ts'
import { UsageError } from '../../checking/usage-error.ts'
import { listingHash } from '../../delivery/shard.ts'
import type { Run } from '../../judge/assemble.ts'
import type { Part } from '../../judge/part.ts'
import type { Report } from '../../judge/report.ts'
import { byCodePoint } from '../../text/code-points.ts'
import { listed } from '../../text/quantity.ts'
import { reportReader } from './read-report.ts'

type PartReport = Report & { readonly part: Part }
interface Read {
  readonly path: string
  readonly report: PartReport
}

const WANTED = {
  instead: 'name the reports that check --shard wrote with --format json',
  renew: 'check the part again with this version',
  smaller: 'divide the delivery into more parts',
}

/** A delivery put together from its parts, as it was before it was judged. */
export type Parts = Pick<Run, 'tool' | 'strict' | 'left' | 'files'> &
  Pick<Part, 'sources' | 'listing' | 'origin'>

/**
 * Reads the reports on all parts of one delivery.
 * @param paths of JSON reports, in any order
 * @throws UsageError when one is not such a report, or they do not make up one whole
 */
export async function readParts(paths: readonly string[], host: Host): Promise<Parts> {
  const read = reportReader(host, WANTED)
  const reads: Read[] = []
  for (const path of paths) {
    host.signal.throwIfAborted()
    const report = await read(path)
    if (!report.part)
      throw new UsageError(`${path} is the report on a whole delivery; merge takes reports of check --shard.`)
    reads.push({ path, report: { ...report, part: report.part } })
  }
  const [first] = reads
  if (!first) throw new UsageError('There is nothing to merge; name the JSON reports of check --shard.')
  refuseStrangers(reads, first)
  refuseGaps(reads, first)
  const { tool, strict, left, part } = first.report
  const { sources, listing, origin } = part
  return { tool, strict, left, files: filesOf(reads, first), sources, listing, origin }
}

/** All parts must be of one delivery, judged by one standard with one version. */
function refuseStrangers(reads: readonly Read[], first: Read): void {
  const stands = ({ strict, left, part }: PartReport) => ({
    'the setting of --strict': strict,
    'the spec, roster, waivers file or gallery': part.sources,
    'the delivery': [part.total, part.listing, left],
    'the commit or run': part.origin,
    'the number of parts': part.of,
  })
  const wanted = stands(first.report)
  for (const { path, report } of reads) {
    for (const [what, value] of Object.entries(stands(report))) {
      if (!isDeepStrictEqual(value, Reflect.get(wanted, what)))
        throw new UsageError(
          `${path} and ${first.path} differ in ${what}; check all parts of one delivery alike and merge those.`,
        )
    }
  }
}

function refuseGaps(reads: readonly Read[], { report }: Read): void {
  const seen = new Map<number, string>()
  for (const { path, report: one } of reads) {
    const double = seen.get(one.part.number)
    if (double !== undefined)
      throw new UsageError(`${double} and ${path} are both part ${one.part.number}; name each part once.`)
    seen.set(one.part.number, path)
  }
  const missing = Array.from({ length: report.part.of }, (_, i) => i + 1).filter(
    (number) => !seen.has(number),
  )
  if (missing.length === 0) return
  throw new UsageError(
    `${missing.length === 1 ? 'Part' : 'Parts'} ${listed(missing.map(String))} of ${report.part.of} ${missing.length === 1 ? 'is' : 'are'} missing; name the reports on all parts.`,
  )
}

/** The files of all parts by code point of their paths, as one run finds them. */
function filesOf(reads: readonly Read[], { report: { part } }: Read): Run['files'] {
  const files = reads.flatMap(({ path, report }) => {
    const measured = new Map(report.files.map((file) => [file.file, file.measurements]))
    return report.part.names.map((name) => {
      const measurements = measured.get(name.path)
      if (!measurements)
        throw new UsageError(`${path} lacks the measurements of one of its files; check that part again.`)
      return { name, measured: measurements }
    })
  })
  files.sort((a, b) => byCodePoint(a.name.path, b.name.path))
  if (listingHash(files.map(({ name }) => name.path)) !== part.listing)
    throw new UsageError(
      'The parts do not make up the delivery that they were taken from; check all parts again.',
    )
  return files
}
