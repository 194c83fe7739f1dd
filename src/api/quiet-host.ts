import { availableParallelism } from 'node:os'
import { resolve } from 'node:path'
import type { Host, Output } from '../checking/host.ts'
import { type MeasuringOptions, meansOf } from '../checking/means.ts'
import { THIS_PROCESS } from '../files/this-process.ts'
import type { Means } from '../pool/measure-all.ts'

/** What both ways of measuring take. */
export interface RunOptions {
  /** Folder that relative paths refer to; the process's own unless told. */
  readonly cwd?: string
  /** Folder in which measurements are kept for the next time, sealed; nothing is kept unless it is told. */
  readonly cache?: string
  /** Worker threads; as many as the processor has cores unless told. 0 measures in this thread, without limits of time and memory. */
  readonly workers?: number
  readonly signal?: AbortSignal
  /** Called after each portrait. */
  readonly progress?: (progress: { readonly done: number; readonly total: number }) => void
}

/** A host for commands that prints nothing and keeps what is said. */
export interface QuietHost extends Host {
  /** What a command that failed has said. */
  readonly trouble: () => Error
}

export function quietHost({ cwd = '.', workers = availableParallelism(), signal }: RunOptions): QuietHost {
  const said: string[] = []
  const stderr: Output = { write: (text) => said.push(text), isTTY: false }
  return {
    cwd: resolve(cwd),
    stdout: { write: () => {}, isTTY: false },
    stderr,
    env: {},
    workers,
    userCache: null,
    processes: THIS_PROCESS,
    signal: signal ?? new AbortController().signal,
    trouble: () => new Error(said.join('').trim()),
  }
}

/** How a program wants portraits measured, as the command line says it. */
export function measuringBy({ cache }: RunOptions): MeasuringOptions {
  return { cache: cache ?? false, rehash: true }
}

/** @throws UsageError when the folder of the cache can't be written to */
export function quietMeans(options: RunOptions, host: QuietHost): Promise<Means> {
  return meansOf(measuringBy(options), host, options.progress ?? (() => {}))
}
