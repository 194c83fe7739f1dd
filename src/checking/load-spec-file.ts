import { resolve } from 'node:path'
import { loadSpec } from '../brand-spec/load.ts'
import type { Spec } from '../brand-spec/spec.ts'
import { readAtMost } from '../files/read-at-most.ts'
import type { SourceText } from '../files/source-text.ts'
import { forTerminal } from '../report/safe.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import type { PlacedProblem } from '../text/placed-problem.ts'
import { fromDisk, readExtended } from './extended-specs.ts'
import type { Host } from './host.ts'

// Of text that is longer than a spec may be, in characters, its reader tells; of more than this nothing is read.
const MOST_BYTES = 1024 * 1024

/** Reads the text of a spec; on trouble says so and gives null. */
async function readSpecFile(file: string, host: Host): Promise<SourceText | null> {
  const complain = (sentence: string) => host.stderr.write(`${forTerminal(sentence)}\n`)
  try {
    const read = await readAtMost(resolve(host.cwd, file), MOST_BYTES)
    if ('data' in read) return { file, text: read.data.toString('utf8') }
    complain(
      read.refused === 'no-file'
        ? `The spec ${file} is not a regular file. Name a file with --spec FILE.`
        : `The spec ${file} is ${Math.ceil(read.bytes / 1024)} KiB; the limit is 128 KiB. Is it the right file?`,
    )
    return null
  } catch (error) {
    complain(unreadable(file, error))
    return null
  }
}

/** A spec and what it extends, as texts. */
export interface SpecTexts {
  readonly spec: SourceText
  /** The spec that it extends, the one which that extends, and so on. */
  readonly extended: readonly SourceText[]
}

/**
 * Reads a spec and what it extends; on trouble says so and gives null.
 * @param within folder that extended specs must not leave; null for no limit
 */
export async function readSpecTexts(
  file: string,
  host: Host,
  within: string | null = null,
): Promise<SpecTexts | null> {
  const spec = await readSpecFile(file, host)
  if (!spec) return null
  const { extended, problems } = await readExtended(spec, fromDisk(host.cwd, within))
  if (problems.length === 0) return { spec, extended }
  complain(file, problems, host)
  return null
}

/** Validates a spec; on trouble says every problem with file, line and column, and gives null. */
export function validSpec({ spec: { file, text }, extended }: SpecTexts, host: Host): Spec | null {
  const loaded = loadSpec(text, file, ALL_RULES, extended)
  if ('spec' in loaded) return loaded.spec
  complain(file, loaded.problems, host)
  return null
}

function complain(spec: string, problems: readonly PlacedProblem[], host: Host): void {
  const say = (sentence: string) => host.stderr.write(`${forTerminal(sentence)}\n`)
  for (const { file = spec, line, column, message } of problems) say(`${file}:${line}:${column}: ${message}`)
  const n = problems.length
  say(`Nothing was judged: the spec has ${n === 1 ? 'a problem' : `${n} problems`}. Fix it and run again.`)
}

function unreadable(file: string, error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined
  if (code === 'ENOENT') {
    return `There is no spec at ${file}. Name one with --spec FILE, or create one: portrait-gate init`
  }
  return `The spec ${file} could not be read (${code ?? error}). Check that it is a file and that you may read it.`
}
