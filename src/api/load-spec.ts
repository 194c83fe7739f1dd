import { resolve } from 'node:path'
import { loadSpec as readSpec } from '../brand-spec/load.ts'
import type { Spec } from '../brand-spec/spec.ts'
import { fromDisk, readExtended } from '../checking/extended-specs.ts'
import { readSourceText } from '../files/source-text.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import type { PlacedProblem } from '../text/placed-problem.ts'

/** A spec that can't be judged by, with all that is wrong with it. */
export class SpecError extends Error {
  readonly problems: readonly PlacedProblem[]

  constructor(file: string, problems: readonly PlacedProblem[]) {
    super(
      problems
        .map(({ file: other = file, line, column, message }) => `${other}:${line}:${column}: ${message}`)
        .join('\n'),
    )
    this.name = 'SpecError'
    this.problems = problems
  }
}

/**
 * Reads and validates a brand spec, with the specs that it extends.
 * @param file path of the YAML file; what it names (roster, waivers) is looked for beside it
 * @param options `cwd`: folder that a relative path refers to; the process's own unless told
 * @throws SpecError with every problem and its place; Error when the file can't be read
 */
export async function loadSpec(file: string, { cwd = '.' }: { readonly cwd?: string } = {}): Promise<Spec> {
  const read = await readSourceText(resolve(cwd, file))
  if ('problem' in read) throw new Error(`The spec ${file} ${read.problem}`)
  const { extended, problems } = await readExtended({ file, text: read.text }, fromDisk(cwd))
  if (problems.length > 0) throw new SpecError(file, problems)
  const loaded = readSpec(read.text, file, ALL_RULES, extended)
  if ('problems' in loaded) throw new SpecError(file, loaded.problems)
  return loaded.spec
}
