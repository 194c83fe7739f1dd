import { type Comment, type Node, parseSync } from 'oxc-parser'
import { functionsIn, namesOfIndices, statedNumbers, unnamedNumbers } from './unnamed-numbers.ts'

/** Where a number comes from: a publication or standard, fitting to data, or a decision with its reason. */
const TAGS = ['source', 'tuned', 'choice'] as const
type Tag = (typeof TAGS)[number]

/** A module-level constant that states a number, or a function that states those of a publication. */
export interface Constant {
  readonly path: string
  /** With `()` behind it for a function. */
  readonly name: string
  /** As written, without type and comments; empty for a function. */
  readonly value: string
  /** What it is: its doc comment up to the tag. */
  readonly meaning: string
  readonly tag: Tag
  /** What follows the tag. */
  readonly origin: string
}

interface Problem {
  readonly path: string
  readonly line: number
  readonly text: string
}

export interface Constants {
  readonly constants: readonly Constant[]
  readonly problems: readonly Problem[]
}

/**
 * Reads the constants of one file, and what is wrong with how it states numbers.
 *
 * A module-level `const` is a constant when it is a number, when it is an array or object that holds a number other than 0, or when it
 * is computed from a number that needs a name (`unnamedNumbers`). It needs a doc comment of its own that says what it is and then,
 * with one of the tags, where it comes from. A number in a function needs to be such a constant, unless the function's own doc comment
 * has `@source`: a published formula or layout is easiest to compare with the publication when its numbers stand as they do there.
 *
 * @throws Error when the file can't be parsed
 */
export function readConstants(path: string, source: string): Constants {
  const { program, comments, errors } = parseSync(path, source)
  if (errors[0]) throw new Error(`${path}: ${errors[0].message}`)
  const indices = namesOfIndices(program)
  const constants: Constant[] = []
  const problems: Problem[] = []
  const report = (at: number, text: string) => problems.push({ path, line: lineAt(source, at), text })
  const add = (name: string, value: string, { tags: [tag], ...doc }: Doc) => {
    if (tag) constants.push({ path, name, value, tag, ...doc })
  }
  const addFunction = (node: Node, name: string, doc: Doc) => {
    const numbers = [...unnamedNumbers(node, indices)]
    if (numbers.length === 0) return
    if (doc.tags[0] === 'source' && wrongWith(doc) === null) add(`${name}()`, '', doc)
    else
      for (const { raw, at } of numbers)
        report(at, `${raw} has no name: make it a constant and say where it comes from.`)
  }
  for (const statement of program.body) {
    const declared = statement.type === 'ExportNamedDeclaration' ? statement.declaration : statement
    const doc = docOf(commentAbove(statement, comments, source))
    if (declared?.type !== 'VariableDeclaration') {
      addFunction(statement, declared && 'id' in declared ? nameOf(declared.id) : '', doc)
      continue
    }
    for (const { id, init } of declared.declarations) {
      if (!init) continue
      const functions = [...functionsIn(init)]
      for (const one of functions) addFunction(one, nameOf(id), doc)
      if (!statesNumbers(init, functions, indices)) continue
      const wrong = declared.declarations.length > 1 ? 'needs a declaration of its own.' : wrongWith(doc)
      if (wrong === null) add(nameOf(id), written(source, init), doc)
      else report(id.start, `${nameOf(id)} ${wrong}`)
    }
  }
  return { constants, problems }
}

/** Whether what a constant is set to holds a number that has to be accounted for. */
function statesNumbers(init: Node, functions: readonly Node[], indices: ReadonlySet<string>): boolean {
  const node = bare(init)
  switch (node.type) {
    case 'Literal':
    case 'UnaryExpression':
      return !statedNumbers(node).next().done
    case 'ArrayExpression':
    case 'ObjectExpression':
      return [...statedNumbers(node)].some((value) => value !== 0)
    default:
      return [...unnamedNumbers(node, indices)].some(
        ({ at }) => !functions.some(({ start, end }) => start <= at && at < end),
      )
  }
}

/** What is left when casts and parentheses are taken off. */
function bare(node: Node): Node {
  const wraps = ['TSAsExpression', 'TSSatisfiesExpression', 'ParenthesizedExpression']
  return wraps.includes(node.type) && 'expression' in node && typeof node.expression === 'object'
    ? bare(node.expression)
    : node
}

interface Doc {
  readonly meaning: string
  readonly tags: readonly Tag[]
  readonly origin: string
}

function commentAbove(statement: Node, comments: readonly Comment[], source: string): string {
  const above = comments.find(
    ({ type, end }) =>
      type === 'Block' && end <= statement.start && source.slice(end, statement.start).trim() === '',
  )
  return above?.value.startsWith('*') ? above.value : ''
}

function docOf(comment: string): Doc {
  const text = comment.replaceAll(/^\s*\*+/gm, '').replaceAll(/\s+/g, ' ')
  const [meaning = '', ...tagged] = text.trim().split(/(?:^|\s)@(source|tuned|choice)\b:?\s*/)
  return {
    meaning: untagged(meaning),
    tags: TAGS.filter((tag) => tagged.includes(tag)),
    origin: untagged(tagged[1] ?? ''),
  }
}

/** What is before other tags, such as `@param`. */
function untagged(text: string): string {
  return text.replace(/(?:^|\s)@[a-z]+\b.*/, '')
}

function wrongWith({ meaning, tags, origin }: Doc): string | null {
  if (tags.length !== 1)
    return `needs a doc comment of its own with one of @${TAGS.join(', @')}; it has ${tags.length || 'none'}.`
  if (meaning === '') return `needs to say what it is before @${tags[0]}.`
  return origin.length < SHORTEST_ORIGIN ? `needs to say something after @${tags[0]}.` : null
}

function nameOf(node: Node | null): string {
  return node?.type === 'Identifier' ? node.name : ''
}

function written(source: string, init: Node): string {
  const { start, end } = bare(init)
  const uncommented = source.slice(start, end).replaceAll(/\/\*.*?\*\/|\/\/.*/g, '')
  return uncommented.replaceAll(/\s+/g, ' ')
}

const lineAt = (source: string, at: number) => source.slice(0, at).split('\n').length

/** Shortest text after a tag that can say something, characters. */
const SHORTEST_ORIGIN = 8
