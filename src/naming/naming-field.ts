import { type Static, Type } from '@sinclair/typebox'

const closed = { additionalProperties: false }
// 255 is the longest name that common file systems store.
const Count = Type.Integer({ minimum: 1, maximum: 255 })

/** What a field of a file name may hold. */
export const FieldConstraint = Type.Union(
  [
    Type.Object(
      {
        digits: Type.Union([Count, Type.Object({ min: Count, max: Count }, closed)], {
          description: 'Digits 0 to 9 only: how many, or { min, max }.',
        }),
      },
      closed,
    ),
    Type.Object(
      {
        'one-of': Type.Array(Type.String({ minLength: 1 }), {
          minItems: 1,
          uniqueItems: true,
          description: 'The values that the field may have; upper and lower case matter.',
        }),
      },
      closed,
    ),
    Type.Object(
      {
        case: Type.Optional(
          Type.Union([Type.Literal('lower'), Type.Literal('upper')], {
            description: 'Lowercase only, or uppercase only.',
          }),
        ),
        'max-length': Type.Optional(
          Type.Integer({ minimum: 1, maximum: 255, description: 'Most characters that the field may have.' }),
        ),
      },
      closed,
    ),
  ],
  {
    description:
      'What the field may hold: { digits }, { one-of }, or any text within { case, max-length }; {} for any text.',
  },
)
export type FieldConstraint = Static<typeof FieldConstraint>

/** Says what is wrong with a field's value (in NFC) in words after "must be": "5 digits"; null when nothing is. */
export type FieldCheck = (value: string) => string | null

export function fieldCheck(constraint: FieldConstraint): FieldCheck {
  if ('digits' in constraint) {
    const { min, max } = digitRange(constraint.digits)
    const wanted = min === max ? (max === 1 ? '1 digit' : `${max} digits`) : `${min} to ${max} digits`
    return (value) => (/^[0-9]+$/.test(value) && value.length >= min && value.length <= max ? null : wanted)
  }
  if ('one-of' in constraint) {
    const values = new Set(constraint['one-of'].map((value) => value.normalize('NFC')))
    const wanted = `one of ${some([...values])}`
    return (value) => (values.has(value) ? null : wanted)
  }
  return textCheck(constraint.case, constraint['max-length'] ?? Infinity)
}

/** What no value can meet, as a sentence; null when there is nothing of the kind. */
export function impossibleConstraint(constraint: FieldConstraint): string | null {
  if (!('digits' in constraint)) return null
  const { min, max } = digitRange(constraint.digits)
  return min > max ? `min is ${min} and max is ${max}, so no number of digits fits; swap them.` : null
}

function textCheck(letters: 'lower' | 'upper' | undefined, longest: number): FieldCheck {
  return (value) => {
    const misses: string[] = []
    if (letters === 'lower' && value !== value.toLowerCase()) misses.push('in lowercase')
    if (letters === 'upper' && value !== value.toUpperCase()) misses.push('in uppercase')
    if (Array.from(value).length > longest) misses.push(`at most ${longest} characters long`)
    return misses.length === 0 ? null : misses.join(' and ')
  }
}

function digitRange(digits: number | { min: number; max: number }): { min: number; max: number } {
  return typeof digits === 'number' ? { min: digits, max: digits } : digits
}

// More than a sentence can hold would hide what it says.
const SHOWN = 12

function some(values: readonly string[]): string {
  const more = values.length - SHOWN
  return more > 0 ? `${values.slice(0, SHOWN).join(', ')} (and ${more} more)` : values.join(', ')
}
