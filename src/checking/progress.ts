import type { Progress } from '../pool/measure-all.ts'
import type { Host } from './host.ts'

export interface ProgressLine {
  show(progress: Progress): void
  clear(): void
}

// Sooner a rate says little: the first portraits wait for the models to load.
const SETTLED_MS = 2000

/**
 * A line on standard error that is overwritten as the work goes on; nothing at all when that is no terminal.
 * @param now milliseconds on a clock that never goes back
 */
export function progressLine({ stderr }: Host, now: () => number = () => performance.now()): ProgressLine {
  if (!stderr.isTTY) return { show: () => {}, clear: () => {} }
  let first: { readonly at: number; readonly done: number } | null = null
  return {
    show: ({ done, total }) => {
      const at = now()
      first ??= { at, done }
      const took = at - first.at
      const made = done - first.done
      const pace = took >= SETTLED_MS && made > 0 ? paceText((made / took) * 1000, total - done) : ''
      const line = `Measured ${done} of ${total} portraits${pace}`
      // A line that wraps can't be overwritten.
      stderr.write(`\r\u001b[2K${line.slice(0, Math.max(1, (stderr.columns ?? 80) - 1))}`)
    },
    clear: () => stderr.write('\r\u001b[2K'),
  }
}

/** ", 9.8 per second, 19 s left" */
function paceText(perSecond: number, left: number): string {
  const rate = perSecond >= 10 ? perSecond.toFixed(0) : perSecond.toFixed(1)
  return `, ${rate} per second${left > 0 ? `, ${durationText(left / perSecond)} left` : ''}`
}

/** Whole seconds, from a minute on minutes and seconds, from an hour on hours and minutes; rounded up. */
function durationText(seconds: number): string {
  const whole = Math.ceil(seconds)
  if (whole < 60) return `${whole} s`
  const minutes = whole < 3600 ? Math.floor(whole / 60) : Math.ceil(whole / 60)
  return minutes < 60 ? `${minutes} min ${whole % 60} s` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`
}
