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

const contentOf: Likeness = (files) => {
  const paths = grouped(files, ({ measurements: { sha256 } }) => sha256)
  return ({ measurements: { sha256 } }) => (sha256 === null ? [] : (paths.get(sha256) ?? []))
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
