import { access, readdir, readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'

const PAGES = [
  'README.md',
  'DEVELOPERS.md',
  ...(await readdir('docs')).filter((name) => name.endsWith('.md')).map((name) => `docs/${name}`),
]

/** Paths that a page writes as code: source files from the root or from src, and whatever is in the folders of the repository. */
function pathsIn(page: string): string[] {
  const own = /^(?:src|tests|scripts|examples|docs|schemas)\//
  return [...page.matchAll(/`([\w.-]+(?:\/[\w.-]*)+)`/g)]
    .map(([, path = '']) => path)
    .filter((path) => own.test(path) || path.endsWith('.ts'))
}

test.each(PAGES)('every file and folder of the repository that %s names is there', async (file) => {
  const missing: string[] = []
  for (const path of pathsIn(await readFile(file, 'utf8'))) {
    // Tests may go by what they are about.
    const ways = [path, `src/${path}`, `${path}.test.ts`, `${path}.ts`]
    const found = await Promise.any(ways.map((way) => access(way))).then(
      () => true,
      () => false,
    )
    if (!found) missing.push(path)
  }
  expect(missing).toEqual([])
})

test('paths are found', () => {
  expect(pathsIn('In `judge/plan.ts` and `src/`, not `check.ts`, `a b/c.ts` or `delivery/web`.')).toEqual([
    'judge/plan.ts',
    'src/',
  ])
})
