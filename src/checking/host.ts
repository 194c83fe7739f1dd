import type { Processes } from '../files/own-folder.ts'
import type { Early } from '../pool/early.ts'

/** Where a command writes text. */
export interface Output {
  write(text: string): void
  /** Width of the terminal in characters; absent when it isn't known. */
  readonly columns?: number | undefined
  readonly isTTY: boolean
}

/** All that a command may use of the world around it, so that tests can stand in for the terminal. */
export interface Host {
  /** Absolute path of the folder that relative paths refer to. */
  readonly cwd: string
  readonly stdout: Output
  readonly stderr: Output
  readonly env: Readonly<Record<string, string | undefined>>
  /** Worker threads to measure with; 0 to measure in this one. */
  readonly workers: number
  /** Workers that may have been started already. */
  readonly early?: Early
  /** Absolute path of the user's own folder for what can be made again; null when there is none. */
  readonly userCache: string | null
  /** Two runs must not write one folder, and the next removes what a killed one left. */
  readonly processes: Processes
  /** Opens an address in the user's browser. Absent where there is nobody to look at it. */
  readonly openPage?: (url: string) => void
  /** Aborted when the user stops the command. */
  readonly signal: AbortSignal
}

/** Exit codes: nothing fails; a portrait fails; nothing could be judged (usage, spec, input or output). */
export const EXIT = { fine: 0, fails: 1, trouble: 2 } as const

/** A command: its own arguments (without the command's name) and the host in; the exit code out. */
export type Command = (args: readonly string[], host: Host) => Promise<number>
