import { readFileSync } from 'node:fs'
import { dirname, join, normalize } from 'node:path'
import { parseSync } from 'oxc-parser'

// What may draw, decode or measure takes seconds a test; most slips of judging code are told by what only judges.
const SLOW =
  /^examples\/drawing\/|\/networks\/face-model\.ts$|^tests\/pool\/built\.ts$|^tests\/(?:long|outside)\//
/** So many slow tests are run for a file, after all quick ones. */
const SLOW_TESTS = 2

/**
 * For each source file the test files that reach it by their imports: the quick ones, then the nearest of
 * the slow ones; of both those first that need the fewest steps.
 * @param tests paths of test files, relative to the folder that the process runs in
 */
export function relatedTests(tests: readonly string[]): (path: string) => string[] {
  const graph = new Map<string, readonly string[]>()
  const importsOf = (path: string): readonly string[] => {
    const known = graph.get(path) ?? importedBy(path)
    graph.set(path, known)
    return known
  }
  const reached = new Map(tests.map((test) => [test, stepsFrom(test, importsOf)]))
  const isSlow = (test: string) => [...(reached.get(test)?.keys() ?? [])].some((path) => SLOW.test(path))
  const slow = new Set(tests.filter(isSlow))
  return (path) => {
    const steps = (test: string) => reached.get(test)?.get(path) ?? Infinity
    const related = tests
      .filter((test) => steps(test) < Infinity)
      .sort((one, other) => steps(one) - steps(other))
    return [
      ...related.filter((test) => !slow.has(test)),
      ...related.filter((test) => slow.has(test)).slice(0, SLOW_TESTS),
    ]
  }
}

/** How many imports lead from a file to each other file, at least. */
function stepsFrom(start: string, importsOf: (path: string) => readonly string[]): Map<string, number> {
  const steps = new Map([[start, 0]])
  for (const [path, count] of steps)
    for (const next of importsOf(path)) if (!steps.has(next)) steps.set(next, count + 1)
  return steps
}

/** The files of this project that a file imports when it runs, also those that it imports only at times. */
function importedBy(path: string): string[] {
  const source = readFileSync(path, 'utf8')
  const { module } = parseSync(path, source)
  const named = [
    ...module.staticImports
      .filter(({ entries }) => entries.length === 0 || entries.some(({ isType }) => !isType))
      .map(({ moduleRequest }) => moduleRequest.value),
    ...module.staticExports.flatMap(({ entries }) =>
      entries.flatMap(({ moduleRequest, isType }) => (moduleRequest && !isType ? [moduleRequest.value] : [])),
    ),
    ...module.dynamicImports.map(({ moduleRequest }) =>
      source.slice(moduleRequest.start, moduleRequest.end).replace(/^['"`]|['"`]$/g, ''),
    ),
  ]
  return named
    .filter((name) => name.startsWith('.') && name.endsWith('.ts'))
    .map((name) => normalize(join(dirname(path), name)))
}
