import { type Document, isAlias, isCollection, isMap, isScalar, isSeq, type Pair, type YAMLMap } from 'yaml'
import { quote } from '../text/quote.ts'
import { pastedProblem } from './pasted.ts'
import type { TextProblem } from './text-problem.ts'

// Each alias is looked up through the whole document, and copies of copies grow without bound.
const MOST_ALIASES = 100

/** The pairs of each mapping by key, so that places are found without searching. */
export type PairIndex = ReadonlyMap<YAMLMap, ReadonlyMap<string, Pair>>

export interface Inspected {
  readonly index: PairIndex
  /** Keys that stand twice; the data can be used all the same. */
  readonly doubles: readonly TextProblem[]
  /** Missing keys, numbers cut in two, what was pasted, and aliases that can't be followed: there is no sound data. */
  readonly faults: readonly TextProblem[]
}

/** Looks at every node of a document without syntax errors. */
export function inspectTree(document: Document): Inspected {
  const inspection = new Inspection(document)
  inspection.visit(document.contents, [])
  return inspection
}

/** What stands behind a decimal comma. */
const DIGITS = /^\d+$/

class Inspection {
  readonly index = new Map<YAMLMap, Map<string, Pair>>()
  readonly doubles: TextProblem[] = []
  readonly faults: TextProblem[] = []
  readonly #document: Document
  #aliases = 0

  constructor(document: Document) {
    this.#document = document
  }

  visit(node: unknown, parents: readonly unknown[]): void {
    if (isAlias(node)) {
      this.#alias(node.range?.[0] ?? 0, node.source, parents, () => node.resolve(this.#document))
    } else if (isMap(node)) {
      this.#index(node)
      for (const { key, value } of node.items) {
        if (isScalar(key)) this.visit(key, parents)
        this.visit(value, [...parents, node])
      }
    } else if (isSeq(node)) {
      for (const item of node.items) this.visit(item, [...parents, node])
    } else if (isScalar(node) && node.type === 'PLAIN') {
      const problem = pastedProblem(node.source ?? '')
      if (problem) this.faults.push({ ...problem, at: (node.range?.[0] ?? 0) + problem.at })
    }
  }

  #index(map: YAMLMap): void {
    const pairs = new Map<string, Pair>()
    this.index.set(map, pairs)
    for (const [index, pair] of map.items.entries()) {
      const key = keyText(pair)
      const at = keyStart(pair)
      const before = map.flow === true ? map.items[index - 1]?.value : null
      if (pair.value === null && DIGITS.test(key) && isScalar(before) && Number.isInteger(before.value))
        this.faults.push({
          at: before.range?.[0] ?? at,
          message: `A decimal has a point, since a comma ends the number here: write ${before.value}.${key}.`,
        })
      else if (key === '')
        this.faults.push({
          at,
          message: 'A key is missing before the colon; write one, or remove the line.',
        })
      else if (pairs.has(key))
        this.doubles.push({ at, message: `${quote(key)} appears twice; keep one of the two.` })
      else pairs.set(key, pair)
    }
  }

  #alias(at: number, name: string, parents: readonly unknown[], target: () => unknown): void {
    this.#aliases++
    if (this.#aliases > MOST_ALIASES) {
      if (this.#aliases === MOST_ALIASES + 1)
        this.faults.push({
          at,
          message: `This file has more than ${MOST_ALIASES} aliases (*name); write the values out.`,
        })
      return
    }
    const node = target()
    if (node === undefined)
      this.faults.push({
        at,
        message: `${quote(`*${name}`)} refers to nothing (&${name} is not set before it); a text that begins with * must be in quotes.`,
      })
    else if (isCollection(node) && parents.includes(node))
      this.faults.push({
        at,
        message: `${quote(`*${name}`)} refers to the part of the spec that contains it; write the values out.`,
      })
  }
}

function keyText({ key }: Pair): string {
  return isScalar(key) && key.value !== null ? String(key.value) : ''
}

export function keyStart({ key }: Pair): number {
  return isScalar(key) ? (key.range?.[0] ?? 0) : 0
}
