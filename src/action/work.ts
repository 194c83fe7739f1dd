import type { FoundFile } from '../delivery/walk.ts'
import type { Sources } from '../judge/part.ts'
import type { Report } from '../judge/report.ts'
import type { Standard } from '../judge/standard.ts'
import type { Checkout } from './git/checkout.ts'
import type { Inputs } from './job/inputs.ts'
import type { Runner } from './job/runner.ts'
import type { Log } from './telling/log.ts'

/** What the action runs in. */
export interface Surroundings {
  readonly runner: Runner
  readonly inputs: Inputs
  readonly env: Readonly<Record<string, string | undefined>>
  readonly signal: AbortSignal
  readonly log: Log
  /** Worker threads to measure with. */
  readonly workers: number
}

/** What is to be done, once the workspace was looked at. */
export interface Work extends Surroundings {
  /** Null where there is no repository, or no git. */
  readonly checkout: Checkout | null
  /** Folder for measurements, absolute; null to keep none. */
  readonly cache: string | null
}

/** What was judged, before it is told. */
export interface Judged {
  readonly report: Report
  readonly at: Date
  /** The folder that the names in the report refer to. */
  readonly root: string
  /** Those that the pages of the report show. */
  readonly portraits: readonly FoundFile[]
  readonly judgedBy: { readonly standard: Standard; readonly sources: Sources }
  /** Sentences for the summary. */
  readonly notes: readonly string[]
  readonly exit: number
  /** Removes what is needed no longer, once it was told. */
  readonly close?: () => Promise<void>
}
