import type { Part } from './profile-page.ts'

/** A place in a call stack, as the profiler of V8 tells it. */
export interface Frame {
  readonly functionName: string
  readonly url: string
}

// By where a file is in src; the first that fits counts. What several parts use counts for the part that calls it.
const OURS: readonly (readonly [RegExp, Part])[] = [
  [/measure\/(face\/networks|networks|person)\//, 'networks'],
  [/measure\/face\/irises\//, 'irises'],
  [/measure\/straightening\//, 'straightening'],
  [/measure\/intrusions\/intrusions\.|measure\/backdrop/, 'backdrop'],
  [/measure\/intrusions\//, 'edges'],
  [/measure\/head\/(chin|beard)/, 'chin'],
  [/measure\/head\//, 'head'],
  [/measure\/finish\/focus\//, 'focus'],
  [/measure\/finish\/glare\//, 'glare'],
  [/measure\/finish\/resampling\//, 'enlargement'],
  [/measure\/finish\//, 'skin'],
  [/measure\/signature\./, 'signature'],
  [/measure\/file\/decode/, 'decoding'],
  [/src\/color\/|measure\/(picture|file\/working-copy)\.|kernels\/shrinking\./, 'copies'],
  [/measure\/(metadata|file)\/|src\/files\//, 'file'],
]

/**
 * Which part of the work a sample belongs to.
 * @param stack what ran, and what called it, innermost first
 */
export function partOf(stack: readonly Frame[]): Part {
  const [innermost] = stack
  if (innermost?.functionName === '(garbage collector)') return 'garbage'
  if (innermost?.functionName === '(idle)') return 'waiting'
  for (const { url } of stack) {
    const path = url.replaceAll('\\', '/')
    if (!path.includes('/src/') || path.includes('node_modules')) continue
    for (const [pattern, part] of OURS) if (pattern.test(path)) return part
  }
  // A network runs in a turn of its own, which nothing of ours called.
  return stack.some(({ url }) => url.startsWith('wasm:') || url.includes('@litertjs')) ? 'networks' : 'rest'
}
