import { type Document, isAlias, isMap, isNode, isScalar, isSeq, type Pair, parseDocument } from 'yaml'
import type { PlacedProblem } from '../text/placed-problem.ts'
import { LineIndex } from './line-index.ts'
import { nestedBeyond } from './nesting.ts'
import { syntaxProblems } from './syntax.ts'
import type { TextProblem } from './text-problem.ts'
import { inspectTree, keyStart, type PairIndex } from './yaml-tree.ts'

/** Keys that lead to a value; list items by their index from 0. */
export type Path = readonly string[]

// A spec of every rule for a dozen deliverables takes some 20 kB; a megabyte of brackets took 13 s to parse.
const MOST_BYTES = 128 * 1024
// A spec's settings lie up to six levels deep.
const MOST_LEVELS = 30
// Copies that aliases may make in all.
const MOST_COPIES = 100

/** A YAML text and where in it each value stands. */
export class YamlSource {
  /** Plain data without cycles; mappings are objects. */
  readonly data: unknown
  readonly #yaml: string
  readonly #document: Document
  readonly #index: PairIndex
  readonly #lines: LineIndex

  constructor(yaml: string, document: Document, index: PairIndex, lines: LineIndex, data: unknown) {
    this.#yaml = yaml
    this.#document = document
    this.#index = index
    this.#lines = lines
    this.data = data
  }

  /** Plain data at a place; undefined where there is none. */
  valueAt(path: Path): unknown {
    let value = this.data
    for (const step of path) {
      if (typeof value !== 'object' || value === null) return undefined
      value = Object.hasOwn(value, step) ? Reflect.get(value, step) : undefined
    }
    return value
  }

  /** A problem at a value, or at its key: for values that are not there too. */
  problem(path: Path, at: 'key' | 'value', message: string): PlacedProblem {
    const { pair, node } = this.#find(path)
    const value = isNode(node) && !isEmpty(node) ? node.range?.[0] : undefined
    const key = pair ? keyStart(pair) : value
    return this.#problemAt((at === 'value' ? (value ?? key) : key) ?? 0, message)
  }

  /** A problem at a character (from 0) of a text, exact as long as the text stands on one line without escapes. */
  problemWithin(path: Path, character: number, message: string): PlacedProblem {
    const { node } = this.#find(path)
    if (!isScalar(node) || !node.range) return this.problem(path, 'value', message)
    const [start, end] = node.range
    const quoted = node.type === 'QUOTE_DOUBLE' || node.type === 'QUOTE_SINGLE' ? 1 : 0
    const exact = this.#yaml.slice(start + quoted, end - quoted) === node.value
    return this.#problemAt(exact ? start + quoted + character : start, message)
  }

  /** A value as it is written, such as 00123; null when it is no plain text, number or word. */
  written(path: Path): string | null {
    const { node } = this.#find(path)
    return isScalar(node) && node.type === 'PLAIN' ? (node.source ?? null) : null
  }

  /** The comment that follows a key on its line ("#fff } # tint"), without spaces around it; null when there is none. */
  commentAfter(path: Path): string | null {
    const { pair } = this.#find(path)
    if (!pair || !isScalar(pair.key)) return null
    const start = pair.key.range?.[1] ?? 0
    const rest = this.#yaml.slice(start, start + 200)
    return /^\s*:[ \t]+(#[^\n]*)/.exec(rest)?.[1]?.trim() ?? null
  }

  #find(path: Path): { pair?: Pair; node: unknown } {
    let node: unknown = this.#document.contents
    let pair: Pair | undefined
    for (const step of path) {
      const parent = isAlias(node) ? node.resolve(this.#document) : node
      pair = isMap(parent) ? this.#index.get(parent)?.get(step) : undefined
      node = isSeq(parent) ? parent.items[Number(step)] : pair?.value
    }
    return pair ? { pair, node } : { node }
  }

  #problemAt(offset: number, message: string): PlacedProblem {
    return placed({ at: offset, message }, this.#lines)
  }
}

/**
 * Reads a YAML 1.2 text (core schema) of at most 128 KiB. Either it can't be read, and the problems say why; or it can,
 * and the problems beside it (keys that stand twice) are to be told with those of its content.
 */
export function readYaml(text: string): { source?: YamlSource; problems: PlacedProblem[] } {
  const refused = refusal(text)
  if (refused !== null) return { problems: [{ line: 1, column: 1, message: refused }] }
  const yaml = text.replace(/^\uFEFF/, '').replace(/\r(?!\n)/g, '\n')
  // The parser's own counter misses the line breaks within some texts.
  const lines = new LineIndex(yaml)
  const place = (problem: TextProblem) => placed(problem, lines)
  const deep = nestedBeyond(yaml, MOST_LEVELS)
  if (deep !== null) return { problems: [place({ at: deep, message: TOO_DEEP })] }
  const document = parseDocument(yaml, {
    prettyErrors: false,
    schema: 'core',
    // The parser compares keys in pairs; below each mapping is indexed once.
    uniqueKeys: false,
    stringKeys: true,
    resolveKnownTags: false,
  })
  const errors = [...document.errors, ...document.warnings]
  if (errors.length > 0) return { problems: syntaxProblems(yaml, errors).map(place) }

  const { index, doubles, faults } = inspectTree(document)
  if (faults.length > 0) return { problems: [...doubles, ...faults].map(place) }
  try {
    const data: unknown = document.toJS({ maxAliasCount: MOST_COPIES })
    return { source: new YamlSource(yaml, document, index, lines, data), problems: doubles.map(place) }
  } catch (error) {
    if (!(error instanceof ReferenceError)) throw error
    return {
      problems: [
        {
          line: 1,
          column: 1,
          message: 'The aliases (*name) expand to too many copies; write the values out.',
        },
      ],
    }
  }
}

const TOO_DEEP = `This is more than ${MOST_LEVELS} levels deep; the settings of a spec are at most six deep. Is it the right file?`

function refusal(text: string): string | null {
  const bytes = Buffer.byteLength(text)
  if (bytes > MOST_BYTES)
    return `This file is ${Math.ceil(bytes / 1024)} KiB; the limit is ${MOST_BYTES / 1024} KiB. Is it the right file?`
  if (text.startsWith('{\\rtf'))
    return 'This file is rich text, with fonts and colors (RTF); save it as plain text in UTF-8.'
  if (text.includes('\u0000') || text.includes('\uFFFD'))
    return 'This file is not UTF-8 text; save it as plain text in UTF-8. Is it the right file?'
  return null
}

function placed({ at, message }: TextProblem, lines: LineIndex): PlacedProblem {
  return { ...lines.placeOf(at), message }
}

/** A value that is not written: `key:` and then nothing. */
function isEmpty(node: unknown): boolean {
  return isScalar(node) && node.value === null && (node.source ?? '') === ''
}
