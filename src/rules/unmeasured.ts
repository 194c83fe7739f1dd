import type { Measurements } from '../measure/measurements.ts'
import type { Finding } from './outcome.ts'

/** For a rule whose measurement is missing: `skip` when the file as a whole can't be read (that fails elsewhere), else `unsure`. */
export function unmeasured(measured: Measurements): Finding {
  if (measured.fault) {
    return {
      verdict: 'skip',
      measured: null,
      expected: null,
      reason: 'Not judged: the file could not be read as a whole picture.',
    }
  }
  return { verdict: 'unsure', measured: null, expected: null, reason: 'Not measured; have a person look.' }
}
