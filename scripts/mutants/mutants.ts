import { type Node, parseSync } from 'oxc-parser'

/** One small change of a source file that should make a test fail. */
export interface Mutant {
  readonly path: string
  readonly line: number
  readonly kind: 'comparison' | 'sign' | 'boolean' | 'default' | 'constant' | 'removal'
  /** What is replaced: from one offset up to, and without, another. */
  readonly from: number
  readonly to: number
  readonly by: string
}

/** For each operator the one that a slip would write. */
const SLIPS: Readonly<Record<string, readonly [kind: Mutant['kind'], by: string]>> = {
  '<': ['comparison', '<='],
  '<=': ['comparison', '<'],
  '>': ['comparison', '>='],
  '>=': ['comparison', '>'],
  '===': ['comparison', '!=='],
  '!==': ['comparison', '==='],
  '+': ['sign', '-'],
  '-': ['sign', '+'],
  '*': ['sign', '/'],
  '/': ['sign', '*'],
  '&&': ['boolean', '||'],
  '||': ['boolean', '&&'],
}

/**
 * All mutants of a file, in the order of its text.
 * @throws Error when it can't be parsed
 */
export function mutantsOf(path: string, source: string): Mutant[] {
  const { program, errors } = parseSync(path, source)
  if (errors[0]) throw new Error(`${path}: ${errors[0].message}`)
  const mutants: Mutant[] = []
  for (const node of nodesIn(program))
    for (const { kind, from, to, by } of changesOf(node, source))
      mutants.push({ path, line: source.slice(0, from).split('\n').length, kind, from, to, by })
  return mutants.sort((one, other) => one.from - other.from || one.to - other.to)
}

/** The source with a mutant in it. */
export function mutated(source: string, { from, to, by }: Mutant): string {
  return source.slice(0, from) + by + source.slice(to)
}

type Change = Omit<Mutant, 'path' | 'line'>

function changesOf(node: Node, source: string): Change[] {
  switch (node.type) {
    case 'BinaryExpression':
    case 'LogicalExpression':
      return operatorChanges(node, source)
    case 'UnaryExpression':
      if (node.operator === '!' || node.operator === '-')
        return [change(node.operator === '!' ? 'boolean' : 'sign', node.start, node.argument.start, '')]
      return []
    case 'Literal':
      return literalChanges(node)
    case 'IfStatement':
    case 'ConditionalExpression':
      return [true, false].map((always) => change('removal', node.test.start, node.test.end, String(always)))
    case 'ExpressionStatement':
      return 'directive' in node && node.directive ? [] : [change('removal', node.start, node.end, ';')]
    default:
      return []
  }
}

/** Another operator; of `??` the left side alone. Texts are joined with `+` too, where `-` would be no slip. */
function operatorChanges(
  node: Extract<Node, { type: 'BinaryExpression' | 'LogicalExpression' }>,
  source: string,
): Change[] {
  const { left, right, operator } = node
  if (operator === '??') return [change('default', left.end, node.end, '')]
  const [kind, by] = SLIPS[operator] ?? []
  if (kind === undefined || by === undefined) return []
  const at = source.indexOf(operator, left.end)
  return at < 0 || at >= right.start ? [] : [change(kind, at, at + operator.length, by)]
}

function literalChanges(node: Extract<Node, { type: 'Literal' }>): Change[] {
  if (typeof node.value === 'boolean') return [change('constant', node.start, node.end, String(!node.value))]
  if (typeof node.value === 'number') return [change('constant', node.start, node.end, `${node.value + 1}`)]
  return []
}

function change(kind: Mutant['kind'], from: number, to: number, by: string): Change {
  return { kind, from, to, by }
}

/** All nodes that are code: types and imports are not. */
function* nodesIn(node: Node): Generator<Node> {
  if (/^TS(?!AsExpression|SatisfiesExpression|NonNullExpression)|^Import/.test(node.type)) return
  yield node
  for (const value of Object.values(node))
    for (const child of Array.isArray(value) ? value : [value])
      if (typeof child === 'object' && child !== null && 'type' in child) yield* nodesIn(child as Node)
}
