import { randomUUID } from 'node:crypto'

/** What later steps of the workflow can read. */
export interface ActionOutputs {
  /** `skip`: no portrait changed; `error`: nothing could be judged. */
  readonly verdict: 'pass' | 'fail' | 'unsure' | 'skip' | 'error'
  readonly checked: number
  readonly failed: number
  readonly unsure: number
  /** Paths of the reports from the workspace on; empty when there is none. */
  readonly 'report-json': string
  readonly 'report-html': string
  /** Path of the sealed delivery from the workspace on; empty when none was made. */
  readonly bag: string
}

/**
 * Outputs as the runner reads them: a value between two lines with a delimiter that nobody can foresee, so that no
 * value can end itself and begin another output (GitHub Docs, "Workflow commands", multiline strings).
 */
export function outputLines(outputs: ActionOutputs, delimiter: () => string = randomUUID): string {
  return Object.entries(outputs)
    .map(([name, value]) => {
      const end = `end-${delimiter()}`
      return `${name}<<${end}\n${value}\n${end}\n`
    })
    .join('')
}
