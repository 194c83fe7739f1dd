import type { ActionOutputs } from './outputs.ts'

/** What a run has to tell. */
export interface Told {
  /** Workflow commands. */
  readonly annotations: readonly string[]
  /** Sentences for the summary. */
  readonly notes: readonly string[]
  /** The report in Markdown; null when nothing was judged. */
  readonly page: string | null
  readonly outputs: ActionOutputs
  readonly exit: number
}

/** Of a run in which there was nothing to judge. */
export const NO_OUTPUTS: ActionOutputs = {
  verdict: 'skip',
  checked: 0,
  failed: 0,
  unsure: 0,
  'report-json': '',
  'report-html': '',
  bag: '',
}
