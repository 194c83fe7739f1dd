/** What speaks for a fill, between minus and plus its weight. */
export interface Evidence {
  readonly found: number
  readonly weight: number
}

export const NO_EVIDENCE: Evidence = { found: 0, weight: 0 }

export function gathered({ found, weight }: Evidence, more: number, moreWeight: number): Evidence {
  return { found: found + more, weight: weight + moreWeight }
}

export function together(one: Evidence, other: Evidence): Evidence {
  return gathered(one, other.found, other.weight)
}
