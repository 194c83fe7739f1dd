import { lstat, stat } from 'node:fs/promises'
import { dirname, join, resolve } from 'node:path'
import type { Spec } from '../brand-spec/spec.ts'
import { findPictures } from '../checking/find-pictures.ts'
import type { Host } from '../checking/host.ts'
import { UsageError } from '../checking/usage-error.ts'
import { readNames } from '../delivery/identify.ts'
import type { FoundFile } from '../delivery/walk.ts'
import { isInside } from '../files/folders.ts'
import { realPlace } from '../files/real-place.ts'
import { readSourceText } from '../files/source-text.ts'
import type { NameReading } from '../naming/name-reading.ts'
import { rosterSetting } from '../people/roster-setting.ts'
import { quoted } from '../text/quoted.ts'
import type { PublishedFinding } from './finding.ts'
import { type ListedPicture, listedReading, readShownList } from './shown-list.ts'

/** The pictures that are shown in public, and what tells whom they are shown for. */
export interface Shown {
  readonly files: readonly FoundFile[]
  /** One for each file. */
  readonly names: readonly NameReading[]
  /** What was found wrong on the way. */
  readonly findings: readonly PublishedFinding[]
}

/**
 * Finds what is shown: the pictures below a folder, whose names may tell whom they show, or those that an export lists.
 * @returns null when there are none, which is said
 * @throws UsageError when the list can't be read
 */
export async function findShown(path: string, spec: Spec, host: Host): Promise<Shown | null> {
  const full = resolve(host.cwd, path)
  const isList = await stat(full).then(
    (stats) => stats.isFile(),
    () => false,
  )
  if (isList) return fromList(path, full, spec)
  const found = await findPictures([path], host)
  if (!found) return null
  const names = readNames(found.files, spec.naming, Object.keys(spec.deliverables))
  return { files: found.files, names, findings: [] }
}

async function fromList(path: string, full: string, { naming, settings }: Spec): Promise<Shown> {
  const read = await readSourceText(full)
  if ('problem' in read) throw new UsageError(`The list ${path} ${read.problem}`)
  if (naming === null)
    throw new UsageError(
      'A list needs a naming pattern in the spec, which says what tells one person from another; add "naming:".',
    )
  const list = readShownList(read.text, naming, rosterSetting(settings.roster).columns)
  if ('problem' in list) throw new UsageError(`${path}:${list.problem.line}: ${list.problem.message}`)
  const placed = await Promise.all(
    list.pictures.map(async (one) => ({ one, place: await placeOf(one, dirname(full)) })),
  )
  const there = placed.flatMap(({ one, place }) => (place === null ? [] : [{ one, place }]))
  return {
    files: there.map(({ place }) => ({ path: join(dirname(full), place), file: place })),
    names: there.map(({ one, place }) => listedReading(place, one.fields)),
    findings: placed.filter(({ place }) => place === null).map(({ one }) => absent(one, path)),
  }
}

/** The first place at which a picture lies, from the list's folder on; nothing that leads out of it is one. */
async function placeOf({ places }: ListedPicture, folder: string): Promise<string | null> {
  const within = await realPlace(folder)
  for (const place of places) {
    const path = join(folder, place)
    const stats = await lstat(path).catch(() => null)
    const real = stats?.isFile() ? await realPlace(path) : null
    if (real !== null && within !== null && isInside(real, within)) return place
  }
  return null
}

function absent({ line, written, fields }: ListedPicture, list: string): PublishedFinding {
  return {
    ...{ kind: 'absent-file', verdict: 'fail', file: written, approved: null },
    person: Object.values(fields).filter(Boolean).join(' ') || null,
    message: `Line ${line} of ${quoted(list)} lists it, and it is not in the folder of the list. Download it again, with the pictures beside the list.`,
  }
}
