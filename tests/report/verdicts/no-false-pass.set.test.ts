import { expect, test } from 'vitest'
import { annotations } from '../../../src/action/telling/annotations.ts'
import { exitCode, type Report } from '../../../src/judge/report.ts'
import { logCommands } from '../../action/runner/log-commands.ts'
import { part, partOf } from '../../sets.ts'
import { randomReport } from './random-deliveries.ts'
import { PART_READERS, READERS, rendered } from './readers.ts'

/** Of which the everyday run makes every fourth. */
const RUNS = 500
const EVERY = 4

interface Truth {
  readonly fails: ReadonlySet<string>
  /** Fails, or is unsure. */
  readonly misses: ReadonlySet<string>
}

/** The files that some rule fails or is unsure about, read off the outcomes alone. */
function truthOf({ files, delivery }: Report): Truth {
  const known = new Set(files.map(({ file }) => file))
  const all = [
    ...files.flatMap(({ file, outcomes }) => outcomes.map((outcome) => ({ ...outcome, files: [file] }))),
    ...delivery.outcomes,
  ].filter(({ advisory, waiver }) => !advisory && !waiver)
  const about = (verdicts: readonly string[]) =>
    new Set(
      all
        .filter(({ verdict }) => verdicts.includes(verdict))
        .flatMap((outcome) => outcome.files)
        .filter((file) => known.has(file)),
    )
  return { fails: about(['fail']), misses: about(['fail', 'unsure']) }
}

test('no output calls a file a pass that any rule fails or is unsure about', () => {
  const seen = { byDeliveryAlone: 0, passes: 0 }
  const told = new Map<string, number>()
  for (const run of part([...Array(RUNS).keys()], EVERY)) {
    const report = randomReport(run)
    const truth = truthOf(report)
    const texts = rendered(report)
    for (const [format, read] of Object.entries(run % 10 === 0 ? { ...READERS, ...PART_READERS } : READERS)) {
      const verdicts = read(texts)
      expect(liesIn(verdicts, truth), `${format}, run ${run}`).toEqual([])
      const left = report.files.filter(({ file }) => !verdicts.has(file)).map(({ file }) => file)
      expect(WHOLE.includes(format) ? left : [], `${format}, run ${run}: left out`).toEqual([])
      told.set(
        format,
        (told.get(format) ?? 0) + [...truth.misses].filter((file) => verdicts.has(file)).length,
      )
    }
    const failing = truth.fails.size
    expect(report.totals.fail, `run ${run}`).toBe(failing)
    expect(report.totals.pass, `run ${run}`).toBeLessThanOrEqual(report.files.length - truth.misses.size)
    expect(texts.table.split('\n', 1)[0]).toContain(`${report.totals.pass} pass, ${failing} fail, `)
    expect(exitCode(report)).toBeGreaterThanOrEqual(Math.min(1, failing))
    expect(mildAnnotations(report, truth), `run ${run}`).toEqual([])
    const alone = report.files.filter(({ outcomes }) => outcomes.some(({ verdict }) => verdict === 'fail'))
    seen.byDeliveryAlone += failing - alone.length
    seen.passes += report.totals.pass
  }
  // The deliveries are of all kinds, and each reader finds what it looks for.
  for (const [format, misses] of told)
    expect(misses, format).toBeGreaterThan(partOf(format in PART_READERS ? 150 : 1500, EVERY))
  expect(seen.byDeliveryAlone).toBeGreaterThan(partOf(200, EVERY))
  expect(seen.passes).toBeGreaterThan(partOf(300, EVERY))
})

/** Formats that tell every file. */
const WHOLE = [
  'json',
  'csv',
  'junit',
  'page',
  'a page in parts',
  'the index of a page in parts',
  'the set side by side',
]

/** Files that a format calls better than they are. */
function liesIn(verdicts: ReadonlyMap<string, string>, { fails, misses }: Truth): string[] {
  return [...verdicts].flatMap(([file, verdict]) => {
    const isLie = fails.has(file) ? !/^(fails?|double|maybe\?)$/i.test(verdict) : /^pass(es)?$/.test(verdict)
    return misses.has(file) && isLie ? [`${file}: ${verdict}`] : []
  })
}

/** Failing files that are annotated as less than errors, or not at all though there is room for all. */
function mildAnnotations(report: Report, { fails }: Truth): string[] {
  const commands = logCommands(
    annotations(report, { ofFile: (file) => file, ofPerson: () => null }).join('\n'),
  )
  const hasRoom = !commands.some(({ name }) => name === 'notice')
  return [...fails].filter((file) => {
    const own = commands.filter(({ properties }) => properties.file === file)
    return own.some(({ name }) => name !== 'error') || (hasRoom && own.length !== 1)
  })
}
