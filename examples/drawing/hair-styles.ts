import type { Lock, Locks } from './hair-strands.ts'
import { grownSkull, onHead } from './head-outline.ts'
import type { HairStyle, Proportions } from './look.ts'
import { parted } from './parted-hair.ts'
import { onSide, type Point, resampled } from './path.ts'

/** Short and combed hair, from the hairline to the silhouette all around. Thickness in mm; `lean` sweeps the top aside. */
interface Trim {
  readonly top: number
  readonly side: number
  readonly lean: number
}

function around(shape: Proportions, trim: Trim, lock: Omit<Lock, 'guides'>): Locks {
  const silhouette = grownSkull(shape, trim.top, trim.side)
  const roots = onHead(shape, [0, -67, 34, -69, 65, -60, 84, -40, 90, -16, 92.5, 14])
  const tips = [...silhouette.slice(0, 5), ...onHead(shape, [98.5, 13])]
  const guide = (side: 1 | -1, root: Point, index: number): Point[] => {
    const tip = tips[index] ?? root
    const shift = trim.lean * (1 - index / 5)
    const middle: Point = [(side * (root[0] + tip[0])) / 2 + shift, (root[1] + tip[1]) / 2 - 2]
    return [[side * root[0], root[1]], middle, [side * tip[0] + shift * 0.6, tip[1]]]
  }
  const right = roots.map((root, index) => guide(1, root, index))
  const left = roots.slice(1).map((root, index) => guide(-1, root, index + 1))
  return { behind: [], over: [{ guides: [...left.reverse(), ...right], ...lock }], silhouette }
}

/** Hair drawn up to a knot over the crown or behind it. */
function drawnUp(shape: Proportions): Locks {
  const silhouette = grownSkull(shape, 7, 2.5)
  const edge = resampled(silhouette, 8).reverse()
  const knot = -shape.skullAboveEyes - 7
  const right: Point[][] = [
    [...onHead(shape, [0, -69, 0, -80, 0, -92]), [0, knot]],
    [...onHead(shape, [50, -65.5, 46, -80, 28, -96]), [2, knot]],
    [...onHead(shape, [83, -40, 76, -66, 44, -97]), [4, knot]],
    [...onHead(shape, [93, 10]), ...edge],
  ]
  const guides = right.map((guide) => resampled(guide, 8))
  const left = guides.slice(1).map((guide) => onSide(guide, -1))
  return {
    behind: [],
    over: [{ guides: [...left.reverse(), ...guides], hairs: 360, sheenAt: 0.5 }],
    silhouette,
  }
}

/** Hair left at the sides only. */
function horseshoe(shape: Proportions): Locks {
  const guides = [
    onHead(shape, [93, 20, 90, -10, 87, -34, 84, -52]),
    onHead(shape, [96, 19, 98, -10, 96, -36, 90, -58]),
    onHead(shape, [98.5, 18, 104, -8, 103, -34, 95, -58]),
  ]
  const side = (sign: number): Lock => ({
    guides: guides.map((guide) => onSide(guide, sign)),
    hairs: 420,
    length: 0.35,
    airy: true,
  })
  return { behind: [], over: [side(-1), side(1)], silhouette: grownSkull(shape, 0, 3) }
}

export function locksOf(style: HairStyle, shape: Proportions): Locks {
  switch (style) {
    case 'cropped':
      return around(shape, { top: 4.5, side: 1.8, lean: 0 }, { hairs: 1100, length: 0.2 })
    case 'short':
      return around(shape, { top: 13, side: 4, lean: 15 }, { hairs: 520, sheenAt: 0.62 })
    case 'swept':
      return around(shape, { top: 19, side: 4.5, lean: -9 }, { hairs: 520, wave: 2, sheenAt: 0.6 })
    case 'receding':
      return horseshoe(shape)
    case 'bob':
      return parted(shape, { part: 12, volume: 16, fall: 0.86, wave: 1.5 })
    case 'long':
      return parted(shape, { part: -10, volume: 15, fall: 1.8, wave: 2 })
    case 'waves':
      return parted(shape, { part: 14, volume: 20, fall: 1.8, wave: 9 })
    case 'bun':
    case 'topknot':
      return drawnUp(shape)
    default:
      return { behind: [], over: [], silhouette: grownSkull(shape, 0, 0) }
  }
}
