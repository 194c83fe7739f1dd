import { execFileSync } from 'node:child_process'
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import process from 'node:process'
import { parseArgs } from 'node:util'
import { seededRandom } from '../examples/drawing/random.ts'
import { type Mutant, mutantsOf, mutated } from './mutants/mutants.ts'
import { relatedTests } from './mutants/related-tests.ts'
import { type Result, WarmTests } from './mutants/warm-tests.ts'

/**
 * Puts random slips into the judging code, one at a time in a copy of the project, and looks whether its quick tests tell. Prints
 * what survives. The same seed gives the same mutants as long as the code is the same.
 *
 *     npm run mutants -- --count 200 --seed 1
 *     npm run mutants -- src/rules/sitter/ --count 20
 */
const ROOMS = [
  'rules',
  'framing',
  'delivery',
  'naming',
  'people',
  'brand-spec',
  'judge',
  'waivers',
  'action',
  'report',
  'changes',
]
// Texts that browsers read: no test of this process runs them.
const NOT_CODE = /\/html\/(?:style[\w-]*|script)\.ts$/

const { values, positionals } = parseArgs({
  options: { count: { type: 'string', default: '200' }, seed: { type: 'string', default: '1' } },
  allowPositionals: true,
})
const folders = positionals.length > 0 ? positionals : ROOMS.map((room) => `src/${room}/`)
const tracked = execFileSync('git', ['ls-files', '-z'], { encoding: 'utf8' }).split('\0').filter(Boolean)
const sources = tracked.filter(
  (path) => path.endsWith('.ts') && !NOT_CODE.test(path) && folders.some((folder) => path.startsWith(folder)),
)
const all = sources.flatMap((path) => mutantsOf(path, readFileSync(path, 'utf8')))
const chosen = pick(all, Number(values.count), Number(values.seed))
const testsOf = relatedTests(tracked.filter((path) => /^tests\/(?!long\/).*(?<!\.set)\.test\.ts$/.test(path)))

const copy = copied()
const tests = new WarmTests(copy)
const tally: Record<Result | 'untested', number> = { failed: 0, passed: 0, hung: 0, untested: 0 }
try {
  const needed = [...new Set(chosen.flatMap(({ path }) => testsOf(path)))]
  process.stderr.write(`${needed.length} test files\n`)
  // Some need what a copy lacks: git's own files, folders in their place.
  const failing = await tests.failing(needed)
  if (failing.length > 0)
    process.stderr.write(`Left out, since they fail without a mutant: ${failing.join(', ')}\n`)
  for (const [n, mutant] of chosen.entries()) {
    const source = readFileSync(mutant.path, 'utf8')
    const related = testsOf(mutant.path).filter((test) => !failing.includes(test))
    writeFileSync(join(copy, mutant.path), mutated(source, mutant))
    const result = related.length === 0 ? 'untested' : await tests.run(mutant.path, related)
    writeFileSync(join(copy, mutant.path), source)
    tally[result]++
    if (result === 'passed' || result === 'untested')
      process.stdout.write(`\n${shown(mutant, source, result)}\n`)
    else
      process.stderr.write(
        `${n + 1}/${chosen.length} ${result} ${mutant.path}:${mutant.line} ${mutant.kind}\n`,
      )
  }
} finally {
  await tests.close()
  rmSync(copy, { recursive: true, force: true })
}
const killed = tally.failed + tally.hung
const share = ((100 * killed) / chosen.length).toFixed(1)
process.stdout.write(
  `\n${killed} of ${chosen.length} killed (${share} %, ${tally.hung} by running in circles), of ${all.length} in ${sources.length} files; seed ${values.seed}\n`,
)

/** So many of them by chance, in an order of chance too: a run that is broken off has tried a fair part. */
function pick(mutants: readonly Mutant[], count: number, seed: number): Mutant[] {
  const random = seededRandom(seed)
  return mutants
    .map((mutant) => ({ mutant, key: random.next() }))
    .sort((one, other) => one.key - other.key)
    .slice(0, count)
    .map(({ mutant }) => mutant)
}

/** A copy of the project; what is only read there is linked. */
function copied(): string {
  const folder = mkdtempSync(join(tmpdir(), 'mutants-'))
  for (const path of tracked) cpSync(path, join(folder, path))
  for (const path of ['node_modules', '.cache']) symlinkSync(resolve(path), join(folder, path))
  return folder
}

function shown(
  { path, line, kind, from, to, by }: Mutant,
  source: string,
  result: Result | 'untested',
): string {
  const start = source.lastIndexOf('\n', from - 1) + 1
  const end = source.indexOf('\n', to)
  const [before, after] = [source.slice(start, end), source.slice(start, from) + by + source.slice(to, end)]
  return `${result === 'untested' ? 'no quick test' : 'survived'}: ${path}:${line} (${kind})\n- ${before.trim()}\n+ ${after.trim()}`
}
