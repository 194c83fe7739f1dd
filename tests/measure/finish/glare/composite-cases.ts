import { seeded } from '../../../random.ts'
import type { CompositeLight } from './lens-light.ts'

export interface Composite {
  readonly name: string
  /** Package and path of the photograph. */
  readonly photograph: readonly [source: string, path: string]
  readonly spectacles: 'none' | 'thin' | 'thick'
  readonly catchlights: 0 | 1 | 2
  /** What the lenses reflect; null for nothing. */
  readonly light: CompositeLight | null
  /** Whether it covers more of a lens than the rule's text calls a good limit: 3 %. */
  readonly glare: boolean
}

const soft = (name: string) => ['soft-ui-design-system', `assets/img/${name}.jpg`] as const
const argon = (name: string) => ['argon-design-system-free', `assets/img/faces/${name}.jpg`] as const

/** Naked eyes without any reflection but catchlights, seen by eye on enlargements. Three of dark or brown skin come first. */
const NAKED = [
  soft('charles'),
  soft('kal-visuals-square'),
  argon('team-4'),
  argon('christian'),
  ['material-kit', 'assets/img/faces/marc.jpg'],
  soft('ivana-square'),
  soft('team-1'),
] as const
/** Real spectacles that reflect hardly anything: only lights are added. */
const CLEAN = ['startbootstrap-agency', 'dist/assets/img/team/3.jpg'] as const

const SHARES = [0.05, 0.1, 0.2, 0.35, 0.6, 1] as const
const SHAPES = ['softbox', 'window', 'umbrella'] as const
// Linear light that a coating leaves: none, green and blue. Lights are brighter than white paper.
const TINTS = [
  [1, 1, 1],
  [0.45, 1, 0.6],
  [0.55, 0.7, 1],
] as const

/**
 * Five pictures of each naked face without glare: as it was, with one or two lights in the eyes, behind clean thin and thick
 * spectacles, and with a glint of a hundredth of a lens; and four with glare of a twentieth of a lens to a whole lens.
 * The real spectacles have two without and four with.
 */
export const COMPOSITES: readonly Composite[] = [...NAKED, CLEAN].flatMap((photograph, n) => {
  const random = seeded(n + 1)
  const [real] = photograph === CLEAN ? ['none' as const] : [undefined]
  const without: Composite[] = (
    [
      ['none', 1, null],
      ['none', 2, null],
      ['thin', 1, null],
      ['thick', 2, null],
      ['thin', 0, lightOf(random, 0.01, n)],
    ] as const
  ).map(([spectacles, catchlights, light]) => ({
    name: '',
    photograph,
    spectacles: real ?? spectacles,
    catchlights,
    light,
    glare: false,
  }))
  const glares: Composite[] = [0, 1, 2, 3].map((k) => ({
    name: '',
    photograph,
    spectacles: real ?? (k % 2 === 0 ? 'thin' : 'thick'),
    catchlights: pick([0, 1, 2] as const, n + k),
    light: lightOf(random, pick(SHARES, n * 4 + k), n + k),
    glare: true,
  }))
  const all = [...(real ? without.filter((_, k) => k === 0 || k === 4) : without), ...glares]
  return all.map((one) => ({ ...one, name: nameOf(one) }))
})

function lightOf(random: () => number, share: number, k: number): CompositeLight {
  const reach = share > 0.5 ? 2 : 8
  return {
    share,
    shape: pick(SHAPES, k),
    on: pick(['both', 'left', 'right'], k),
    at: [(2 * random() - 1) * reach, (2 * random() - 1) * reach * 0.8],
    tint: pick(TINTS, k + Math.floor(k / 3)),
    strength: 0.35 + 0.9 * random(),
  }
}

function nameOf({ photograph, spectacles, catchlights, light }: Composite): string {
  const shown =
    light &&
    `${light.shape} ${light.share} on ${light.on}, tint ${light.tint.join('/')}, ${light.strength.toFixed(2)}`
  return `${photograph[1].split('/').slice(-2).join('/')}, ${spectacles}, ${catchlights} catchlights, ${shown ?? 'no light'}`
}

function pick<T>(list: readonly T[], index: number): T {
  return list[index % list.length] as T
}
