import { constants } from 'node:os'

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const
type Signal = (typeof SIGNALS)[number]

/** Why a run ends early: someone sent it a signal. */
export class Stopped extends Error {
  /** Exit code by the shells' convention: 128 and the number of the signal. */
  readonly exit: number

  constructor(signal: Signal) {
    super(`Stopped by ${signal}.`)
    this.exit = 128 + constants.signals[signal]
  }
}

/** Aborted with `Stopped` at the first signal; a second one ends the process. @param once listens to one signal, once */
export function stopOnSignals(once: (signal: Signal, listener: () => void) => void): AbortSignal {
  const controller = new AbortController()
  for (const signal of SIGNALS) once(signal, () => controller.abort(new Stopped(signal)))
  return controller.signal
}

/** Why a run was stopped; null when it was not. */
export function stoppedBy({ reason }: AbortSignal): Stopped | null {
  return reason instanceof Stopped ? reason : null
}
