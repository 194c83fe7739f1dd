import type { Part } from './profile-page.ts'

/** A place in a call stack, as the profiler of V8 tells it. */
export interface Frame {
  readonly functionName: string
  readonly url: string
}

// By where a file lies in src; the first that fits counts. What several parts use counts for the part that calls it.
const OURS: readonly (readonly [RegExp, Part])[] = [
  [/measure\/(graph-model|face-detector|face-mesh|iris-model|bilinear)\./, 'networks'],
  [/measure\/(line-search|slope-row|frame-line|edge-[a-z]+|backdrop-edges|regions)\./, 'edges'],
  [/measure\/(intrusions|backdrop|surface|flood|outline|background)\./, 'backdrop'],
  [/measure\/(head|crown|proportions)\./, 'head'],
  [/measure\/(chin|beard)[a-z-]*\./, 'chin'],
  [/measure\/focus\//, 'focus'],
  [/measure\/glare\//, 'glare'],
  [/measure\/(skin\/|finish\.)/, 'skin'],
  [/measure\/signature\./, 'signature'],
  [/measure\/(metadata|container|icc|jpeg)\//, 'file'],
  [/measure\/(read-file|header|content|image|without-rows|more-rows)[a-z-]*\.|files\//, 'file'],
  [/measure\/(decode|decoder)[a-z-]*\./, 'decoding'],
  [/color\/|measure\/picture\./, 'copies'],
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
  return 'rest'
}
