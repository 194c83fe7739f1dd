import { middle, type Run, type Turns } from './timed.ts'

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

/** How many times the wall time of another run: the middle of what the rounds give, since a machine's speed changes from one to the next. */
export function ratio(run: Turns, other: Turns): string {
  return ofRounds(run, other, ({ seconds }) => seconds)
}

/** How many times the processor time of another run, which a busy machine changes less. */
export function cpuRatio(run: Turns, other: Turns): string {
  return ofRounds(run, other, ({ cpuSeconds }) => cpuSeconds)
}

function ofRounds(run: Turns, other: Turns, of: (run: Run) => number | null): string {
  const ratios = run.rounds.flatMap((round, i) => {
    const [ours, theirs] = [of(round), of(other.rounds[i] as Run)]
    return ours && theirs ? [ours / theirs] : []
  })
  return ratios.length === 0 ? '' : middle(ratios, (value) => value).toFixed(2)
}

export function quotient(value: number | null, of: number | null | undefined): string {
  return value === null || !of ? '' : (value / of).toFixed(2)
}
