/** What a finding is about, whatever it says. */
export interface Subject {
  readonly rule: string
  readonly files: readonly string[]
  readonly people: readonly string[]
}

/**
 * Pairs findings with those of an earlier report that are about the same: the same rule, exactly the same files and
 * people. Each earlier finding is paired once, so that a second of its kind is a new one.
 * @param fits whether a finding may be taken for the earlier one
 * @returns the earlier finding by the one of now
 */
export function matched<Now extends Subject, Before extends Subject>(
  now: readonly Now[],
  before: readonly Before[],
  fits: (now: Now, before: Before) => boolean = () => true,
): ReadonlyMap<Now, Before> {
  const left = new Map<string, Before[]>()
  for (const one of before) {
    const key = keyOf(one)
    const others = left.get(key)
    if (others) others.push(one)
    else left.set(key, [one])
  }
  const pairs = new Map<Now, Before>()
  for (const one of now) {
    const candidates = left.get(keyOf(one)) ?? []
    const at = candidates.findIndex((candidate) => fits(one, candidate))
    const [found] = at < 0 ? [] : candidates.splice(at, 1)
    if (found) pairs.set(one, found)
  }
  return pairs
}

function keyOf({ rule, files, people }: Subject): string {
  return JSON.stringify([rule, files.toSorted(), people.toSorted()])
}
