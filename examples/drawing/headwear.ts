import { type Cloth, clothOf, clothWithin, folds, type Headwear, rimShadow } from './cloth.ts'
import { onHead } from './head-outline.ts'
import { headscarf } from './headscarf.ts'
import type { Proportions } from './look.ts'
import { mirrored, moved, onSide, type Point, smooth } from './path.ts'
import { blurred, line, type Scene } from './scene.ts'

export function headwear(scene: Scene): Headwear {
  const cloth = clothOf(scene.look.headwearColor)
  switch (scene.look.headwear) {
    case 'headscarf':
      return headscarf(scene, cloth)
    case 'turban':
      return { behind: '', over: turban(scene, cloth) }
    case 'scrub-cap':
      return { behind: '', over: scrubCap(scene, cloth) }
    default:
      return { behind: '', over: '' }
  }
}

/** From side to side over the axis, given from the axis outwards. */
function acrossForehead(rim: readonly Point[]): Point[] {
  return [...onSide(rim, -1).reverse(), ...rim.slice(1)]
}

function turban({ look, palette }: Scene, cloth: Cloth): string {
  const shape = look.proportions
  const rim = onHead(shape, [0, -66, 40, -56, 80, -32, 98.5, -2])
  const outer = onHead(shape, [110, -10, 125, -42, 122, -80, 86, -114, 42, -128, 0, -132])
  const outline = smooth(mirrored([...rim, ...outer].reverse()), true)
  const wraps = [-1, 1].flatMap((side) => [0, 1, 2, 3, 4, 5].map((turn) => wrap(shape, side, turn)))
  return (
    rimShadow(smooth(moved(acrossForehead(rim), 0, 2)), palette.skinDeep) +
    clothWithin('turban', outline, cloth, folds(cloth, wraps))
  )
}

/** One turn of the cloth, higher with each turn. */
function wrap(shape: Proportions, side: number, turn: number): Point[] {
  const lift = 11.5 * turn
  return onSide(
    onHead(shape, [121, -12 - lift, 72, -40 - 1.05 * lift, 30, -62 - lift, -4 - 5 * turn, -72 - 0.92 * lift]),
    side,
  )
}

function scrubCap({ look, palette }: Scene, cloth: Cloth): string {
  const shape = look.proportions
  const rim = onHead(shape, [0, -60, 50, -56, 86, -36, 102, -14])
  const outer = onHead(shape, [109, -36, 98, -72, 74, -102, 40, -112, 0, -114])
  const outline = smooth(mirrored([...rim, ...outer].reverse()), true)
  const seam = smooth(moved(acrossForehead(rim), 0, -11))
  const gathers = [-75, -40, 0, 40, 75].map((x) =>
    onHead(shape, [1.05 * x, -62, 0.9 * x, -85, 0.5 * x, -106]),
  )
  return [
    rimShadow(smooth(moved(acrossForehead(rim), 0, 2)), palette.skinDeep),
    clothWithin('cap', outline, cloth, folds(cloth, gathers) + blurred(0.5, line(seam, cloth.dark, 1, 0.8))),
  ].join('')
}
