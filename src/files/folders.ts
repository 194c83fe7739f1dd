import { isAbsolute, parse, relative, sep } from 'node:path'

/** Whether an absolute path is a folder itself or lies in it. Compares names; links are the caller's concern. */
export function isInside(path: string, folder: string): boolean {
  const way = relative(folder, path)
  return way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way)
}

/** The nearest folder that holds all the folders; null when there are none, or none in common (drives of Windows). */
export function commonFolder(folders: readonly string[]): string | null {
  const [first, ...rest] = folders
  if (first === undefined) return null
  const { root } = parse(first)
  if (!rest.every((folder) => parse(folder).root === root)) return null
  let common = namesOf(first)
  for (const names of rest.map(namesOf)) {
    const differ = common.findIndex((name, index) => name !== names[index])
    if (differ >= 0) common = common.slice(0, differ)
  }
  return root + common.join(sep)
}

function namesOf(folder: string): string[] {
  return folder
    .slice(parse(folder).root.length)
    .split(sep)
    .filter((name) => name !== '')
}
