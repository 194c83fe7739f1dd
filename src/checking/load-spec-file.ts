import { resolve } from 'node:path'
import { loadSpec } from '../brand-spec/load.ts'
import type { Spec } from '../brand-spec/spec.ts'
import { readAtMost } from '../files/read-at-most.ts'
import type { SourceText } from '../files/source-text.ts'
import { forTerminal } from '../report/safe.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import type { Host } from './host.ts'

export const DEFAULT_SPEC = 'brand.yaml'

// Of text that is longer than a spec may be, in characters, its reader tells; of more than this nothing is read.
const MOST_BYTES = 1024 * 1024

/** Reads the text of a spec; on trouble says so and gives null. */
export async function readSpecFile(file: string, host: Host): Promise<SourceText | null> {
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

/** Validates a spec; on trouble says every problem with file, line and column, and gives null. */
export function validSpec({ file, text }: SourceText, host: Host): Spec | null {
  const complain = (sentence: string) => host.stderr.write(`${forTerminal(sentence)}\n`)
  const loaded = loadSpec(text, file, ALL_RULES)
  if ('spec' in loaded) return loaded.spec
  for (const { line, column, message } of loaded.problems) complain(`${file}:${line}:${column}: ${message}`)
  const n = loaded.problems.length
  complain(
    `Nothing was judged: the spec has ${n === 1 ? 'a problem' : `${n} problems`}. Fix it and run again.`,
  )
  return null
}

function unreadable(file: string, error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined
  if (code === 'ENOENT') {
    return `There is no spec at ${file}. Name one with --spec FILE, or create one: portrait-gate init`
  }
  return `The spec ${file} could not be read (${code ?? error}). Check that it is a file and that you may read it.`
}
