import { type Node, visitorKeys } from 'oxc-parser'

/** A number as it is written. */
export interface WrittenNumber {
  readonly value: number
  /** As in the source, such as `1e-9`. */
  readonly raw: string
  /** Offset into the source. */
  readonly at: number
}

/** Nothing, one, both, half; percent; half a turn and a whole one in degrees; the largest 8-bit code, and how many there are; bytes in a KiB. */
const PLAIN: ReadonlySet<number> = new Set([0, 1, 2, 0.5, 100, 180, 360, 255, 256, 1024])

/** Methods of arrays, buffers, texts and numbers whose whole numbers are places, lengths, digits or a radix. */
const PLACING =
  /^(read|write|get|set)(Big)?(U?I|Ui)nt|^(subarray|slice|at|set|fill|toString|startsWith|copy|copyWithin|to(Fixed|Precision)|pad(Start|End)|parseInt)$/

/** Operators whose right side is a whole exponent, a shift or a mask. */
const BY_BITS: ReadonlySet<string> = new Set(['**', '<<', '>>', '>>>', '&', '|', '^'])
const ARITHMETIC: ReadonlySet<string> = new Set(['+', '-', '*'])
const COMPARISONS: ReadonlySet<string> = new Set(['<', '<=', '>', '>='])
const CONSTANT = /^[A-Z][A-Z0-9_]*$/
const ALLOCATED = /Array$|^Buffer$|^alloc/

/**
 * The numbers of a piece of code that have no name and need one. These need none:
 * - 0, 1, 2, 0.5, 100, 180, 255, 256, 360 and 1024, with either sign;
 * - whole numbers that say where something is in an array, a buffer or a text: in the brackets of an index, in the arguments of
 *   methods that take places, in what is added to, assigned to or compared with a variable that is used as an index, and as a
 *   factor of the length of a new array. Only sums and products count: `data[3 * i + 1]` is free, `data[Math.ceil(3 * sigma)]` is not;
 * - whole exponents, shifts and bit masks, the radix and the digits of a number that is written out;
 * - `channels: 3`, as the picture library is told;
 * - whatever is in a schema (`Type.Number({ minimum: 0, maximum: 20 })`): `npm run generate` publishes those with their meaning.
 *
 * @param indices the names that the file uses as indices, from `namesOfIndices`
 */
export function* unnamedNumbers(
  node: Node,
  indices: ReadonlySet<string>,
  places = false,
): Generator<WrittenNumber> {
  if (node.type === 'Literal') {
    if (typeof node.value !== 'number' || PLAIN.has(node.value) || (places && Number.isInteger(node.value)))
      return
    yield { value: node.value, raw: node.raw ?? String(node.value), at: node.start }
    return
  }
  if (isType(node) || isSchema(node) || isChannels(node)) return
  for (const [part, child] of childrenOf(node))
    yield* unnamedNumbers(child, indices, (places && isSum(node)) || isPlace(node, part, child, indices))
}

/** Every number in a piece of data, whatever it is: what a module-level constant states. Functions and schemas are left out. */
export function* statedNumbers(node: Node): Generator<number> {
  if (node.type === 'Literal' && typeof node.value === 'number') yield node.value
  if (isType(node) || isFunction(node) || isSchema(node)) return
  for (const [part, child] of childrenOf(node)) {
    if (node.type === 'MemberExpression' && part === 'property') continue
    yield* statedNumbers(child)
  }
}

/** The functions in a piece of data. */
export function* functionsIn(node: Node): Generator<Node> {
  if (isFunction(node)) yield node
  else for (const [, child] of childrenOf(node)) yield* functionsIn(child)
}

/** The variables that a file uses as indices: in brackets, or as arguments of methods that take places. Not its constants. */
export function namesOfIndices(node: Node, found = new Set<string>(), places = false): Set<string> {
  if (node.type === 'Identifier' && places && !CONSTANT.test(node.name)) found.add(node.name)
  for (const [part, child] of childrenOf(node))
    namesOfIndices(child, found, (places && isSum(node)) || isBracketed(node, part) || isPlacing(node, part))
  return found
}

function isPlace(node: Node, part: string, child: Node, indices: ReadonlySet<string>): boolean {
  if (isBracketed(node, part) || isPlacing(node, part)) return true
  const names = (other: Node) => other.type === 'Identifier' && indices.has(other.name)
  switch (node.type) {
    case 'BinaryExpression':
      if (BY_BITS.has(node.operator)) return part === 'right' && child.type === 'Literal'
      if (!COMPARISONS.has(node.operator)) return false
      return [node.left, node.right].some((side) => [...leavesOf(side)].some(names))
    case 'VariableDeclarator':
      return part === 'init' && names(node.id)
    case 'AssignmentExpression':
      return part === 'right' && names(node.left)
    case 'NewExpression':
      return part === 'arguments' && ALLOCATED.test(nameOf(node.callee)) && isProduct(child)
    case 'CallExpression':
      return part === 'arguments' && ALLOCATED.test(nameOf(node.callee)) && isProduct(child)
    default:
      return false
  }
}

const isBracketed = (node: Node, part: string) =>
  node.type === 'MemberExpression' && node.computed && part === 'property'

const isPlacing = (node: Node, part: string) =>
  node.type === 'CallExpression' && part === 'arguments' && PLACING.test(nameOf(node.callee))

const isSum = (node: Node) =>
  (node.type === 'BinaryExpression' && ARITHMETIC.has(node.operator)) ||
  node.type === 'ConditionalExpression' ||
  node.type === 'UnaryExpression' ||
  node.type === 'ParenthesizedExpression' ||
  node.type === 'TSAsExpression'

const isProduct = (node: Node) => node.type === 'BinaryExpression' && node.operator === '*'

function* leavesOf(node: Node): Generator<Node> {
  if (!isSum(node)) yield node
  else for (const [, child] of childrenOf(node)) yield* leavesOf(child)
}

const isSchema = (node: Node) =>
  node.type === 'CallExpression' &&
  node.callee.type === 'MemberExpression' &&
  node.callee.object.type === 'Identifier' &&
  node.callee.object.name === 'Type'

const isChannels = (node: Node) =>
  node.type === 'Property' && node.key.type === 'Identifier' && node.key.name === 'channels'

const isFunction = (node: Node) =>
  node.type === 'FunctionExpression' ||
  node.type === 'ArrowFunctionExpression' ||
  node.type === 'FunctionDeclaration'

/** Types state no values; what they are put on does. */
const isType = (node: Node) =>
  node.type.startsWith('TS') &&
  node.type !== 'TSAsExpression' &&
  node.type !== 'TSSatisfiesExpression' &&
  node.type !== 'TSNonNullExpression'

function nameOf(callee: Node): string {
  if (callee.type === 'MemberExpression' && callee.property.type === 'Identifier') return callee.property.name
  return callee.type === 'Identifier' ? callee.name : ''
}

function* childrenOf(node: Node): Generator<[part: string, child: Node]> {
  const parts = new Map<string, unknown>(Object.entries(node))
  for (const part of visitorKeys[node.type] ?? []) {
    const value = parts.get(part)
    for (const child of Array.isArray(value) ? value : [value]) if (isNode(child)) yield [part, child]
  }
}

function isNode(value: unknown): value is Node {
  return typeof value === 'object' && value !== null && 'type' in value
}
