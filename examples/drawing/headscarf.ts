import { type Cloth, clothWithin, folds, type Headwear } from './cloth.ts'
import { onHead } from './head-outline.ts'
import { mirrored, onSide, smooth } from './path.ts'
import { blurred, crisp, fill, line, type Scene } from './scene.ts'

/** A scarf over the hair, closed under the chin and laid over the chest. */
export function headscarf({ look, palette }: Scene, cloth: Cloth): Headwear {
  const shape = look.proportions
  const outer = onHead(
    shape,
    [0, -112, 42, -107, 82, -86, 111, -45, 118, 10, 112, 60, 111, 105, 133, 140, 168, 175, 127, 230, 0, 250],
  )
  const opening = onHead(shape, [0, -62, 48, -57, 80, -34, 88.5, 0, 87, 40, 74, 74, 42, 98.5, 0, 103])
  const [silhouette, edge] = [smooth(mirrored(outer), true), smooth(mirrored(opening), true)]
  const runs = [-1, 1].flatMap((side) =>
    [
      [8, -82, 72, -62, 99, 0, 93, 70],
      [20, -102, 90, -66, 108, 5, 100, 90],
      [90, 80, 40, 112, -20, 130],
      [105, 105, 50, 140, -10, 162],
      [130, 142, 70, 175, 10, 200],
    ].map((run) => onSide(onHead(shape, run), side)),
  )
  const shade = `<g clip-path="url(#head)">${blurred(4, line(edge, palette.skinDeep, 6, 0.4))}</g>`
  return {
    behind: crisp(fill(silhouette, cloth.dark)),
    over:
      shade +
      clothWithin(
        'scarf',
        silhouette + edge,
        cloth,
        blurred(2, line(edge, cloth.dark, 6, 0.5)) + folds(cloth, runs),
      ),
  }
}
