import { namedFiles } from '../brand-spec/named-files.ts'
import type { Spec } from '../brand-spec/spec.ts'
import { readGallery } from '../gallery/gallery-file.ts'
import type { Sources } from '../judge/part.ts'
import type { Standard } from '../judge/standard.ts'
import { readRoster } from '../people/roster.ts'
import { rosterSetting } from '../people/roster-setting.ts'
import { forTerminal } from '../report/safe.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import { readWaivers } from '../waivers/read-waivers.ts'
import { readBesideSpec } from './beside-spec.ts'
import { readGallerySource } from './gallery-source.ts'
import type { Host } from './host.ts'
import { readSpecTexts, type SpecTexts, validSpec } from './load-spec-file.ts'
import type { MeasuringOptions } from './means.ts'

/** The files to judge by, as the command line names them. */
export interface StandardOptions {
  readonly spec: string
  readonly roster?: string
  readonly waivers?: string
  readonly gallery?: string
  /** Folder that the specs which the spec extends must not leave; without one there is no limit. */
  readonly within?: string
}

/** What portraits are judged by, with the texts that say so. */
export interface ReadStandard {
  readonly sources: Sources
  readonly standard: Standard
}

/**
 * Reads the spec and what goes with it; on trouble says every problem of the first that has any and gives null.
 * @throws UsageError when a file that the spec or the command line names can't be read
 */
export async function readStandard(
  options: StandardOptions & MeasuringOptions,
  host: Host,
): Promise<ReadStandard | null> {
  const read = await readSources(options, host)
  const standard = read && standardBy(read.spec, read.sources, host)
  return standard && { sources: read.sources, standard }
}

/**
 * Reads the spec and the texts that go with it; on trouble with the spec says so and gives null.
 * @throws UsageError when a file that the spec or the command line names can't be read
 */
export async function readSources(
  options: StandardOptions & MeasuringOptions,
  host: Host,
): Promise<{ readonly spec: Spec; readonly sources: Sources } | null> {
  const texts = await readSpecTexts(options.spec, host, options.within)
  const spec = texts && validSpec(texts, host)
  if (!texts || !spec) return null
  return { spec, sources: { ...withExtended(texts), ...(await readBeside(spec, options, host)) } }
}

function withExtended({ spec, extended }: SpecTexts): Pick<Sources, 'spec' | 'extended'> {
  return { spec, extended: [...extended] }
}

/** What goes with a spec, as texts. */
type Beside = Omit<Sources, 'spec' | 'extended'>

/**
 * Reads what goes with a spec.
 * @throws UsageError when a file that the spec or the options name can't be read
 */
export async function readBeside(
  spec: Spec,
  options: Omit<StandardOptions, 'spec'> & MeasuringOptions,
  host: Host,
): Promise<Beside> {
  const named = namedFiles(spec)
  const read = (what: 'roster' | 'waivers') =>
    readBesideSpec({ what, option: options[what], setting: named[what] }, host)
  return {
    roster: await read('roster'),
    waivers: await read('waivers'),
    gallery:
      options.gallery === undefined ? null : await readGallerySource(options.gallery, spec, options, host),
  }
}

/** Makes of the texts that a part carries what portraits are judged by; on trouble the same. */
export function standardOf(sources: Sources, host: Host): Standard | null {
  const spec = validSpec(sources, host)
  return spec && standardBy(spec, sources, host)
}

/** What portraits are judged by; on trouble says every problem of the first text that has any and gives null. */
export function standardBy(spec: Spec, sources: Beside, host: Host): Standard | null {
  const roster =
    sources.roster && readRoster(sources.roster, spec.naming, rosterSetting(spec.settings.roster).columns)
  if (roster && 'problems' in roster) return refused(sources.roster?.file, roster.problems, host)
  const rules = ALL_RULES.map(({ id }) => id)
  const waivers = sources.waivers ? readWaivers(sources.waivers, rules) : { waivers: [] }
  if ('problems' in waivers) return refused(sources.waivers?.file, waivers.problems, host)
  const gallery = sources.gallery && readGallery(sources.gallery.text)
  if (gallery && 'problem' in gallery)
    return refused(sources.gallery?.file, [{ line: 1, message: gallery.problem }], host)
  return {
    spec,
    roster: roster?.roster ?? null,
    waivers: waivers.waivers,
    gallery: gallery?.portraits ?? null,
  }
}

interface Problem {
  readonly line: number
  readonly column?: number
  readonly message: string
}

// More would scroll away; the next run tells the rest.
const MOST = 50

function refused(file: string | undefined, problems: readonly Problem[], host: Host): null {
  for (const { line, column, message } of problems.slice(0, MOST)) {
    const place = column === undefined ? line : `${line}:${column}`
    host.stderr.write(`${forTerminal(`${file}:${place}: ${message}`)}\n`)
  }
  const n = problems.length
  const count = n === 1 ? 'a problem' : `${n} problems`
  host.stderr.write(`${forTerminal(`Nothing was judged: ${file} has ${count}. Fix it and run again.`)}\n`)
  return null
}
