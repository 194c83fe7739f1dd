import type { Measurements } from '../../measure/schema/measurements.ts'
import type { Finding } from '../contract/outcome.ts'

/**
 * For a rule whose measurement is missing: `skip` when the file as a whole can't be read (that fails elsewhere),
 * else `unsure`.
 * @param noun how the sentence begins: "Headroom", "The resolution"
 */
export function unmeasured(measured: Measurements, noun: string): Finding {
  if (measured.fault?.kind === 'format')
    return skipped('Not judged: the file format is refused; see file-format.')
  if (measured.fault) return skipped('Not judged: the file could not be read as a complete picture.')
  return {
    verdict: 'unsure',
    measured: null,
    expected: null,
    reason: `${noun} was not measured; check by eye.`,
  }
}

/** For a rule that does not apply. */
export function skipped(reason: string): Finding {
  return { verdict: 'skip', measured: null, expected: null, reason }
}
