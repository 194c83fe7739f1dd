import { listed } from '../text/quantity.ts'

// So many can be looked over; a longer list is cut to a few, since cutting one or two would be no help.
const LONG = 20
const FEW = 5
const FEW_NAMES = 3

/** Whether a list is too long to be told in full. */
export function isLong(length: number): boolean {
  return length > LONG
}

/** A list and what is left out of it. */
export interface Short<T> {
  readonly first: readonly T[]
  readonly others: readonly T[]
}

/** The first few of a long list and the others; of any other list, or when all are asked for, all and none. */
export function shortened<T>(list: readonly T[], all: boolean): Short<T> {
  return isLong(list.length) && !all
    ? { first: list.slice(0, FEW), others: list.slice(FEW) }
    : { first: list, others: [] }
}

/** Names in a sentence: "a, b and c"; of many "a, b, c and 97 more". */
export function fewOf(names: readonly string[]): string {
  if (names.length <= FEW_NAMES + 1) return listed(names)
  return `${names.slice(0, FEW_NAMES).join(', ')} and ${names.length - FEW_NAMES} more`
}
