import type { Run } from './timed.ts'

/** Seconds of wall time. */
export function s({ seconds }: Run): string {
  return seconds.toFixed(2)
}

/** A duration in seconds, as milliseconds where it is short. */
export function ms(seconds: number): string {
  return seconds >= 1 ? `${seconds.toFixed(2)} s` : `${(1000 * seconds).toFixed(seconds < 0.01 ? 2 : 0)} ms`
}

export function each(run: Run, count: number): string {
  return ms(run.seconds / count)
}

/** How many times the wall time of another run. */
export function ratio(run: Run, other: Run): string {
  return (run.seconds / other.seconds).toFixed(2)
}

/** How many times the processor time of another run, which a busy machine changes less. */
export function cpuRatio(run: Run, other: Run): string {
  return quotient(run.cpuSeconds, other.cpuSeconds)
}

export function quotient(value: number | null, of: number | null | undefined): string {
  return value === null || !of ? '' : (value / of).toFixed(2)
}
