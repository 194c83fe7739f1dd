import { below, pick, type Random } from './chance.ts'

const VALUES: readonly unknown[] = [
  null,
  true,
  0,
  -1,
  1e308,
  0.5,
  '',
  'x'.repeat(100_000),
  '../../x',
  [],
  {},
  [[[]]],
]

/** Data with one part of it, anywhere, taken out, twice there, or something else. The data itself stays as it is. */
export function spoiledJson(data: unknown, random: Random): unknown {
  const copy: unknown = structuredClone(data)
  const holders = holdersIn(copy)
  if (holders.length === 0) return pick(random, VALUES)
  const holder = pick(random, holders)
  const key = pick(random, Object.keys(holder))
  if (random() < 0.3) {
    if (Array.isArray(holder)) holder.splice(below(random, holder.length), 1)
    else Reflect.deleteProperty(holder, key)
  } else if (random() < 0.2 && Array.isArray(holder)) holder.push(holder[0])
  else Reflect.set(holder, random() < 0.1 ? 'constructor' : key, pick(random, VALUES))
  return copy
}

/** All lists and objects in it that hold something, itself among them. */
function holdersIn(data: unknown): object[] {
  if (typeof data !== 'object' || data === null) return []
  const inner = Object.values(data).flatMap(holdersIn)
  return Object.keys(data).length > 0 ? [data, ...inner] : inner
}
