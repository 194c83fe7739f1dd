import { basename, dirname, join } from 'node:path'

/** Where a run writes: all beside each other, so that a file that is ready takes its place at once. */
export interface Places {
  /** The delivery: what passes. Absolute, as are the others. */
  readonly output: string
  /** What does not. */
  readonly heldBack: string
  /** What was done; see {@link Prepared}. */
  readonly ledger: string
  /** What is being made; as long as it is there, a run is at work or was stopped. */
  readonly work: string
}

export function placesFor(output: string): Places {
  const [folder, name] = [dirname(output), basename(output)]
  return {
    output,
    heldBack: join(folder, `${name}-held-back`),
    ledger: join(folder, `${name}-prepared.json`),
    work: join(folder, `.${name}-being-prepared`),
  }
}
