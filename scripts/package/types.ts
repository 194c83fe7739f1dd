import { readFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'

/** The library whose types stand in ours; its own are put beside them, since it is not installed. */
const LIBRARY = { name: '@sinclair/typebox', index: 'node_modules/@sinclair/typebox/build/esm/index.d.mts' }

/** A module that a declaration names: `from '…'` or `import('…')`. */
const NAMED = /((?:\bfrom|\bimport\()\s*["'])([^"']+)(["'])/g

/**
 * The declarations that the library's own lead to, by their path in the package. Run in the repository's root when it is built.
 * @param built folder of the build, such as `dist/src`
 */
export function declarations(built: string): ReadonlyMap<string, string> {
  const found = new Map<string, string>()
  const add = (path: string): void => {
    const place = placeOf(path, built)
    if (found.has(place)) return
    found.set(place, '')
    const text = readFileSync(path, 'utf8').replaceAll(NAMED, (_, before, name, after) => {
      const named = pathOf(name, path)
      if (named === null) return before + name + after
      add(named)
      return before + nameOf(placeOf(named, built), dirname(place)) + after
    })
    found.set(place, text)
  }
  add(join(built, 'index.d.ts'))
  return found
}

/** Where the declaration lies that a name in another stands for; null for what Node or the reader brings. */
function pathOf(name: string, from: string): string | null {
  if (name === LIBRARY.name) return LIBRARY.index
  if (!name.startsWith('.')) return null
  return join(dirname(from), name.replace(/\.(m?)[jt]s$/, '.d.$1ts'))
}

function placeOf(path: string, built: string): string {
  const library = dirname(LIBRARY.index)
  return path.startsWith(library) ? join('typebox', relative(library, path)) : relative(built, path)
}

function nameOf(place: string, from: string): string {
  const name = relative(from, place).replace(/\.d\.(m?)ts$/, '.$1js')
  return name.startsWith('.') ? name : `./${name}`
}
