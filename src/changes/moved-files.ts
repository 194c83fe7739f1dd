import type { Report } from '../judge/report.ts'

/**
 * Where files of an earlier report are now, by their paths there: those that have gone, and whose content one new file
 * alone has.
 */
export function movedFiles(now: Report, before: Report): ReadonlyMap<string, string> {
  const gone = byContent(before, new Set(now.files.map(({ file }) => file)))
  const come = byContent(now, new Set(before.files.map(({ file }) => file)))
  return new Map(
    [...gone].flatMap(([sha256, [old, ...others]]) => {
      const [file, ...more] = come.get(sha256) ?? []
      const isOne = old !== undefined && file !== undefined && others.length + more.length === 0
      return isOne ? [[old, file] as const] : []
    }),
  )
}

function byContent({ files }: Report, left: ReadonlySet<string>): ReadonlyMap<string, readonly string[]> {
  const paths = new Map<string, string[]>()
  for (const { file, measurements } of files) {
    const { sha256 } = measurements
    if (sha256 === null || left.has(file)) continue
    paths.set(sha256, [...(paths.get(sha256) ?? []), file])
  }
  return paths
}
