import { SITTERS, type Sitter } from '../../../examples/drawing/sitters.ts'

/** Invented colleagues of the drawn staff: their names and staff IDs. */
const COLLEAGUES: readonly (readonly [family: string, given: string, staffId: string])[] = [
  ['Abara', 'Nkem', '20117'],
  ['Bell', 'Rowan', '20231'],
  ['Corrigan', 'Maeve', '20344'],
  ['Duarte', 'João', '20458'],
  ['Esposito', 'Carla', '20562'],
  ['Fraser', 'Iona', '20677'],
  ['Gunnarsson', 'Ari', '20783'],
  ['Hollis', 'Tamsin', '20891'],
  ['Ibarra', 'Lucía', '20905'],
  ['Jokinen', 'Pieter', '21016'],
  ['Kaya', 'Deniz', '21128'],
  ['Lefebvre', 'Noémie', '21239'],
  ['Marchetti', 'Elio', '21343'],
  ['Nyström', 'Ebba', '21457'],
  ['Orlov', 'Darya', '21568'],
  ['Petrenko', 'Olena', '21674'],
]
// None that stands high: it would move the eyes, since crown and chin are placed.
const HAIR = ['bob', 'cropped', 'bun', 'waves', 'receding', 'long', 'swept'] as const
const HAIR_COLORS = ['auburn', 'gray', 'black', 'blond', 'brown', 'red', 'white'] as const
const GARMENTS = ['pullover', 'shirt', 'scrubs', 'white-coat'] as const
const GARMENT_COLORS = ['#7a6a58', '#2b3d5e', '#6b3f5e', '#2f7f86', '#a04a3c'] as const

/** The 40 people of the planted delivery, in the order of their names. */
export const STAFF: readonly Sitter[] = [...SITTERS, ...COLLEAGUES.map(colleague)].toSorted((a, b) =>
  a.family < b.family ? -1 : 1,
)

/** Somebody who works elsewhere. */
export const VISITOR: Sitter = colleague(['Quist', 'Ada', '90417'], 19)

/** Somebody with the head of one drawn sitter and everything else of their own. */
function colleague([family, given, staffId]: readonly [string, string, string], index: number): Sitter {
  const of = <T>(values: readonly T[], step: number) => values[(index * step) % values.length] as T
  const { look } = of(SITTERS, 7)
  return {
    ...{ family, given, staffId },
    look: {
      ...look,
      seed: Number(staffId),
      tone: (7 * index + 4 * Math.floor(index / 10) + 3) % 10,
      hair: of(HAIR, 1),
      hairColor: of(HAIR_COLORS, 3),
      headwear: index % 11 === 10 ? 'headscarf' : 'none',
      beard: index % 5 === 4 ? 'short' : 'none',
      spectacles: index % 5 === 3 ? 'thick' : 'none',
      garment: of(GARMENTS, 1),
      garmentColor: of(GARMENT_COLORS, 1),
      makeup: index % 3 === 0,
    },
  }
}
