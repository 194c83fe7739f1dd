import type { Report } from '../judge/report.ts'

type File = Report['files'][number]

/**
 * Where files of an earlier report are now, by their paths there, as far as these are not the same. A file was renamed
 * when one new file alone has its content. It was checked from another folder, as "print/a.jpg" and
 * "delivery/print/a.jpg", when one new file alone has a path that ends in the other.
 */
export function movedFiles(now: Report, before: Report): ReadonlyMap<string, string> {
  const gone = without(before, now)
  const come = without(now, before)
  return new Map([...pairs(gone, come, seenFromElsewhere), ...pairs(gone, come, contentOf)])
}

/**
 * Also files that were renamed and changed: of one person for one deliverable one file alone has gone, and one alone has
 * come. Only where all files of both were looked at, and only to tell what has changed: a retake is taken for the
 * file that it replaces.
 */
export function replacedFiles(now: Report, before: Report): ReadonlyMap<string, string> {
  const moved = movedFiles(now, before)
  const there = new Set(moved.values())
  const gone = without(before, now).filter(({ file }) => !moved.has(file))
  const come = without(now, before).filter(({ file }) => !there.has(file))
  return new Map([...moved, ...pairs(gone, come, placeOf)])
}

function without({ files }: Report, other: Report): File[] {
  const known = new Set(other.files.map(({ file }) => file))
  return files.filter(({ file }) => !known.has(file))
}

type Likeness = (come: readonly File[]) => (file: File) => readonly string[]

/** Those of whom each is like the other alone. */
function pairs(gone: readonly File[], come: readonly File[], likeness: Likeness): [string, string][] {
  const forth = likeness(come)
  const back = likeness(gone)
  const byPath = new Map(come.map((one) => [one.file, one]))
  return gone.flatMap((old) => {
    const [path, ...others] = forth(old)
    const found = path === undefined ? undefined : byPath.get(path)
    return found && others.length === 0 && back(found).length === 1 ? [[old.file, found.file]] : []
  })
}

const contentOf: Likeness = sameKey(({ measurements: { sha256 } }) => sha256)

const placeOf: Likeness = sameKey(({ person, deliverable }) =>
  person === null ? null : JSON.stringify([person, deliverable]),
)

function sameKey(keyOf: (file: File) => string | null): Likeness {
  return (files) => {
    const paths = grouped(files, keyOf)
    return (file) => {
      const key = keyOf(file)
      return key === null ? [] : (paths.get(key) ?? [])
    }
  }
}

const seenFromElsewhere: Likeness = (files) => {
  const paths = grouped(files, nameOf)
  const endsIn = (long: string, short: string) => long.endsWith(`/${short}`)
  return (one) =>
    (paths.get(nameOf(one)) ?? []).filter((path) => endsIn(path, one.file) || endsIn(one.file, path))
}

function nameOf({ file }: File): string {
  return file.slice(file.lastIndexOf('/') + 1)
}

function grouped(
  files: readonly File[],
  keyOf: (file: File) => string | null,
): ReadonlyMap<string, readonly string[]> {
  const paths = new Map<string, string[]>()
  for (const one of files) {
    const key = keyOf(one)
    if (key !== null) paths.set(key, [...(paths.get(key) ?? []), one.file])
  }
  return paths
}
