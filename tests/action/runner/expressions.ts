/** What expressions can read: `steps.judge.outputs.verdict` is contexts.steps.judge.outputs.verdict. */
export type Contexts = Readonly<Record<string, unknown>>

/**
 * Fills in the expressions of a text (GitHub Docs, "Evaluate expressions in workflows"): paths into contexts and
 * nothing else. An output that was not set is empty, as on a runner; a context or an input that is not known throws.
 */
export function filledIn(text: string, contexts: Contexts): string {
  return text.replace(/\$\{\{(.*?)\}\}/gs, (_, expression: string) =>
    String(look(expression.trim(), contexts)),
  )
}

/** An `if`: comparisons with '' and !cancelled(), joined by &&. */
export function holds(condition: string, contexts: Contexts): boolean {
  const inner = /^\$\{\{(.*)\}\}$/s.exec(condition.trim())?.[1] ?? condition
  return inner.split('&&').every((part) => {
    const term = part.trim()
    if (term === '!cancelled()') return true
    const [, path, sign] = /^([\w.-]+) ([!=]=) ''$/.exec(term) ?? []
    if (path === undefined) throw new Error(`The harness does not know the condition: ${term}`)
    return (look(path, contexts) === '') === (sign === '==')
  })
}

function look(expression: string, contexts: Contexts): string | number | boolean {
  if (!/^[a-z]+(?:\.[\w-]+)+$/.test(expression))
    throw new Error(`The harness does not know the expression: ${expression}`)
  let value: unknown = contexts
  const steps = expression.split('.')
  for (const [index, step] of steps.entries()) {
    const known = typeof value === 'object' && value !== null && Object.hasOwn(value, step)
    // Only what a step that ran or was left out may not have said is empty.
    if (!known && steps[0] === 'steps' && steps[2] === 'outputs' && index >= 2) return ''
    if (!known) throw new Error(`Nothing is known of ${expression}.`)
    value = Reflect.get(Object(value), step)
  }
  if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean') return value
  throw new Error(`${expression} is no value.`)
}
