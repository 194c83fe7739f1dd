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
import { readSpecFile, validSpec } from './load-spec-file.ts'
import type { MeasuringOptions } from './measuring.ts'

/** The files to judge by, as the command line names them. */
export interface StandardOptions {
  readonly spec: string
  readonly roster?: string
  readonly waivers?: string
  readonly gallery?: string
}

/**
 * Reads the spec and what goes with it; on trouble says so and gives null.
 * @throws UsageError when a file that the spec or the command line names can't be read
 */
export async function readSources(
  options: StandardOptions & MeasuringOptions,
  host: Host,
): Promise<Sources | null> {
  const source = await readSpecFile(options.spec, host)
  const spec = source && validSpec(source, host)
  if (!source || !spec) return null
  const roster = { option: options.roster, setting: rosterSetting(spec.settings.roster).file }
  const waivers = { option: options.waivers, setting: spec.waivers ?? undefined }
  return {
    spec: source,
    roster: await readBesideSpec({ what: 'roster', ...roster }, options.spec, host),
    waivers: await readBesideSpec({ what: 'waivers', ...waivers }, options.spec, host),
    gallery:
      options.gallery === undefined ? null : await readGallerySource(options.gallery, spec, options, host),
  }
}

/** Makes of the texts what portraits are judged by; on trouble says every problem of the first that has any: null. */
export function standardOf(sources: Sources, host: Host): Standard | null {
  const spec = validSpec(sources.spec, host)
  if (!spec) return null
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
