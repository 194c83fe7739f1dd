import { resolve } from 'node:path'
import { loadSpec } from '../../brand-spec/load.ts'
import { namedFiles } from '../../brand-spec/named-files.ts'
import { readBesideSpec } from '../../checking/beside-spec.ts'
import { fromDisk, readExtended } from '../../checking/extended-specs.ts'
import { UsageError } from '../../checking/usage-error.ts'
import { readSourceText } from '../../files/source-text.ts'
import { readRoster } from '../../people/roster.ts'
import { rosterSetting } from '../../people/roster-setting.ts'
import { ALL_RULES } from '../../rules/delivery-index.ts'
import { readWaivers } from '../../waivers/read-waivers.ts'
import type { StandardFiles } from './base-spec.ts'

/** A problem and its place; line and column from 1. */
export interface PlacedProblem {
  readonly file: string
  readonly line: number
  readonly column?: number
  readonly message: string
}

/**
 * What is wrong with the spec and what it extends, else with the roster, else with the waivers, as the check of a delivery tells it.
 * @param cwd folder that the paths refer to
 */
export async function standardProblems(files: StandardFiles, cwd: string): Promise<PlacedProblem[]> {
  const read = await readSourceText(resolve(cwd, files.spec))
  const atSpec = (message: string) => [{ file: files.spec, line: 1, message }]
  if ('problem' in read) return atSpec(`The spec ${read.problem}`)
  const spec = { file: files.spec, text: read.text }
  const { extended, problems } = await readExtended(spec, fromDisk(cwd, cwd))
  if (problems.length > 0) return [...problems]
  const loaded = loadSpec(read.text, files.spec, ALL_RULES, extended)
  if ('problems' in loaded) return loaded.problems.map((one) => ({ file: files.spec, ...one }))
  const named = namedFiles(loaded.spec)
  const { columns } = rosterSetting(loaded.spec.settings.roster)
  const beside = (what: 'roster' | 'waivers') =>
    readBesideSpec({ what, option: files[what] ?? undefined, setting: named[what] }, { cwd })
  try {
    const roster = await beside('roster')
    const people = roster && readRoster(roster, loaded.spec.naming, columns)
    if (roster && people && 'problems' in people)
      return people.problems.map((one) => ({ file: roster.file, ...one }))
    const waivers = await beside('waivers')
    const rules = ALL_RULES.map(({ id }) => id)
    const granted = waivers && readWaivers(waivers, rules)
    if (waivers && granted && 'problems' in granted)
      return granted.problems.map((one) => ({ file: waivers.file, ...one }))
  } catch (error) {
    // A file that the spec names and that is not there, or not readable.
    if (error instanceof UsageError) return atSpec(error.message)
    throw error
  }
  return []
}
