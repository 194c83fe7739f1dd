import { curls } from './hair-curls.ts'
import { drawLock, flyAways, type Lock } from './hair-strands.ts'
import { locksOf } from './hair-styles.ts'
import { type Point, smooth } from './path.ts'
import { blurred, crisp, ellipse, line, type Scene, strandColor } from './scene.ts'
import { scalpShine } from './skin.ts'

/** Hair in drawing order: behind neck and shoulders, and over the head. */
export interface Hair {
  readonly behind: string
  readonly over: string
}

export function hair(scene: Scene): Hair {
  const { hair: style, proportions } = scene.look
  if (style === 'bald') return { behind: '', over: scalpShine(scene) }
  if (style === 'afro' || style === 'curls') {
    const { behind, over, silhouette } = curls(scene)
    return { behind, over: over + flyAways(scene, silhouette) }
  }
  const locks = locksOf(style, proportions)
  const draw = (all: readonly Lock[]): string => all.map((lock) => drawLock(scene, lock)).join('')
  const knot = style === 'topknot' || style === 'bun' ? knotOf(scene) : ''
  return {
    behind: `${draw(locks.behind)}${knot}`,
    over:
      (style === 'receding' ? scalpShine(scene) : hairShadow(scene, locks.over)) +
      draw(locks.over) +
      flyAways(scene, locks.silhouette),
  }
}

/** What the hair's edge throws on the forehead. */
function hairShadow({ palette }: Scene, locks: readonly Lock[]): string {
  const edges = locks.map(({ guides }) => guides.map((guide): Point => guide[0] ?? [0, 0]))
  const falling = locks.flatMap(({ guides }) => (guides.length < 6 ? [guides[0] ?? []] : []))
  const runs = [...edges.filter((edge) => edge.length > 5), ...falling]
  return `<g clip-path="url(#head)">${blurred(4, ...runs.map((run) => line(smooth(run), palette.skinDeep, 6, 0.42)))}</g>`
}

/** A knot of wound hair: high over the crown, or low enough that only its top shows. */
function knotOf(scene: Scene): string {
  const { palette, random, look } = scene
  const high = look.hair === 'topknot'
  const [rx, ry] = high ? [27, 21] : [34, 22]
  const middle: Point = [0, -look.proportions.skullAboveEyes - (high ? 19 : -4)]
  const turns = Array.from({ length: 120 }, () => {
    const reach = random.between(0.15, 1)
    const from = random.between(0, 6.28)
    const arc = [0, 0.4, 0.8, 1.2].map(
      (step): Point => [
        middle[0] + Math.cos(from + step) * rx * reach,
        middle[1] + Math.sin(from + step) * ry * reach,
      ],
    )
    return line(smooth(arc), strandColor(palette, random), random.between(0.5, 1.2), 0.6)
  })
  return (
    blurred(0.5, ellipse(middle, [rx, ry], palette.hair)) +
    crisp(...turns) +
    blurred(2, ellipse([middle[0], middle[1] + ry * 0.8], [rx * 0.8, 4], palette.hairDark, 0.6))
  )
}
