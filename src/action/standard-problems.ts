import { resolve } from 'node:path'
import { loadSpec } from '../brand-spec/load.ts'
import { readBesideSpec } from '../commands/beside-spec.ts'
import type { Host } from '../commands/host.ts'
import { UsageError } from '../commands/outputs.ts'
import { readSourceText } from '../files/source-text.ts'
import { readRoster } from '../people/roster.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import { readWaivers } from '../waivers/read-waivers.ts'
import type { StandardFiles } from './base-spec.ts'

/** A problem and its place; line and column from 1. */
export interface PlacedProblem {
  readonly file: string
  readonly line: number
  readonly column?: number
  readonly message: string
}

/** What is wrong with the spec, else with the roster, else with the waivers, as the check of a delivery tells it. */
export async function standardProblems(files: StandardFiles, host: Host): Promise<PlacedProblem[]> {
  const read = await readSourceText(resolve(host.cwd, files.spec))
  if ('problem' in read) return []
  const loaded = loadSpec(read.text, files.spec, ALL_RULES)
  if ('problems' in loaded) return loaded.problems.map((one) => ({ file: files.spec, ...one }))
  const { settings, naming, waivers: setting } = loaded.spec
  const listed = typeof settings.roster === 'string' ? settings.roster : undefined
  const beside = async (what: 'roster' | 'waivers', option: string | null, named: string | undefined) => {
    try {
      return await readBesideSpec({ what, option: option ?? undefined, setting: named }, files.spec, host)
    } catch (error) {
      // Told without a place.
      if (error instanceof UsageError) return null
      throw error
    }
  }
  const roster = await beside('roster', files.roster, listed)
  const people = roster && readRoster(roster, naming)
  if (roster && people && 'problems' in people)
    return people.problems.map((one) => ({ file: roster.file, ...one }))
  const waivers = await beside('waivers', files.waivers, setting ?? undefined)
  const granted =
    waivers &&
    readWaivers(
      waivers,
      ALL_RULES.map(({ id }) => id),
    )
  if (waivers && granted && 'problems' in granted)
    return granted.problems.map((one) => ({ file: waivers.file, ...one }))
  return []
}
