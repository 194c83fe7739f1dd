/** What the page asks for. Places and deliveries are named as the page was told them, never by a path. */
export type Wish =
  /** Look into a folder of those listed; null for the one above. */
  | { readonly do: 'look'; readonly folder: string | null }
  /** Judge by a spec of those listed. */
  | { readonly do: 'style'; readonly spec: string }
  /** Show the list again, or no more. */
  | { readonly do: 'choose'; readonly isOpen: boolean }
  | { readonly do: 'show'; readonly delivery: string }
  | { readonly do: 'put-away'; readonly delivery: string }
  | {
      readonly do: 'answer'
      readonly delivery: string
      readonly question: number
      readonly agreed: boolean
    }
  | {
      readonly do: 'sign'
      readonly delivery: string
      readonly by: string
      readonly note: string
      readonly decision: 'approved' | 'returned'
    }
  | { readonly do: 'end' }

/** As it stands on a button, which sends it; a form adds what is filled in. */
export function wishText(wish: Partial<Wish>): string {
  return JSON.stringify(wish)
}

type Kind = 'text' | 'text or null' | 'yes or no' | 'number' | 'decision'

const KEYS: Readonly<Record<Wish['do'], Readonly<Record<string, Kind>>>> = {
  look: { folder: 'text or null' },
  style: { spec: 'text' },
  choose: { isOpen: 'yes or no' },
  show: { delivery: 'text' },
  'put-away': { delivery: 'text' },
  answer: { delivery: 'text', question: 'number', agreed: 'yes or no' },
  sign: { delivery: 'text', by: 'text', note: 'text', decision: 'decision' },
  end: {},
}

const IS: Readonly<Record<Kind, (value: unknown) => boolean>> = {
  text: (value) => typeof value === 'string',
  'text or null': (value) => typeof value === 'string' || value === null,
  'yes or no': (value) => typeof value === 'boolean',
  number: (value) => Number.isSafeInteger(value),
  decision: (value) => value === 'approved' || value === 'returned',
}

/** What was sent, when it is a wish; null for anything else. */
export function wishOf(value: unknown): Wish | null {
  if (typeof value !== 'object' || value === null) return null
  const kind: unknown = Reflect.get(value, 'do')
  if (typeof kind !== 'string' || !Object.hasOwn(KEYS, kind)) return null
  const keys = Object.entries(KEYS[kind as Wish['do']])
  return keys.every(([key, is]) => IS[is](Reflect.get(value, key))) ? (value as Wish) : null
}
