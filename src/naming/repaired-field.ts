import { nearest } from '../text/nearest.ts'
import { type FieldConstraint, fieldCheck } from './naming-field.ts'

/** The value that a misspelled one was most likely meant to be, so that it meets the constraint; null when that is not clear. */
export function repairedField(value: string, constraint: FieldConstraint): string | null {
  const check = fieldCheck(constraint)
  return candidates(value.trim(), constraint).find((one) => one !== '' && check(one) === null) ?? null
}

function candidates(value: string, constraint: FieldConstraint): string[] {
  // Full-width digits and letters have their plain ones as compatibility forms (Unicode UAX #15, NFKC).
  if ('digits' in constraint) return [value, value.normalize('NFKC')]
  if ('one-of' in constraint) {
    const meant = nearest(value, constraint['one-of'])
    return meant === null ? [value] : [value, meant.normalize('NFC')]
  }
  const { case: letters } = constraint
  if (letters === undefined) return [value]
  return [value, letters === 'lower' ? value.toLowerCase() : value.toUpperCase()]
}
