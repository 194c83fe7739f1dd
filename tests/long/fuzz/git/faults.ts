import type { Node } from '../../../action/runner/import.ts'
import { below, happens, pick, type Random } from '../chance.ts'

const MISSING = ['Quinn,Ada', 'Rask,Ulla', 'Sato,Ken']

interface Pictures {
  readonly good: readonly Buffer[]
  readonly bad: readonly Buffer[]
}

/**
 * Gives a base faults of its own, as a repository has that is older than its gate: people without portraits, strangers,
 * one person twice, one picture under two names, bad portraits.
 * @param people who have portraits, as "Family-Given"
 */
export function addFaults(
  base: Map<string, Node>,
  { people, home, spec }: { people: readonly string[]; home: string; spec: string },
  random: Random,
  { good, bad }: Pictures,
): void {
  const file = (content: string | Buffer): Node => ({ file: Buffer.from(content) })
  const rows = [...people.map((person) => person.replace('-', ',')), ...MISSING.slice(below(random, 4))]
  base.set('staff.csv', file(`family,given\n${rows.join('\n')}\n`))
  // Comparing pictures takes the face networks; one in five cases is enough.
  const rules = happens(random, 0.2) ? 'duplicate-picture: none\n' : ''
  base.set('brand.yaml', file(`${spec}roster: staff.csv\n${rules}`))
  const pictures = [...base.keys()].filter((path) => path.endsWith('.jpg'))
  if (happens(random, 0.5)) base.set(`${home}/Stranger-Sam.jpg`, file(good[5] as Buffer))
  if (happens(random, 0.3)) base.set(`${home}/again/${pick(random, people)}.jpg`, file(good[7] as Buffer))
  if (happens(random, 0.3)) base.set(pick(random, pictures), file(good[0] as Buffer))
  if (happens(random, 0.3)) base.set(pick(random, pictures), file(pick(random, bad)))
}
