import { type Cloth, clothOf } from './cloth.ts'
import { coat } from './coat.ts'
import { collar, crewNeck, vNeck } from './necklines.ts'
import { mirrored, onSide, type Point, smooth } from './path.ts'
import { blurred, bothSides, crisp, curve, fill, line, type Scene, together } from './scene.ts'

/** Right half of the shoulders from the collar down, mm; long enough for a picture taken from far off. */
const SHOULDER: readonly Point[] = [
  [76, 176],
  [112, 191],
  [168, 205],
  [206, 226],
  [228, 268],
  [238, 340],
  [246, 480],
  [252, 700],
  [256, 1200],
  [0, 1200],
]

/** Clothes over neck and shoulders; they stay level when the head tilts. */
export function clothes(scene: Scene): string {
  const cloth = clothOf(scene.look.garmentColor)
  switch (scene.look.garment) {
    case 'shirt':
      return torso(cloth, 232) + collar(cloth)
    case 'scrubs':
      return torso(cloth, 250) + vNeck(cloth, 250)
    case 'pullover':
      return torso(cloth, 196) + crewNeck(cloth)
    case 'white-coat':
      return torso(cloth, 236) + collar(cloth) + coat()
  }
}

/** Cloth over the shoulders with its neck open down to `depth` mm below the eyes. */
function torso({ color, light, dark }: Cloth, depth: number): string {
  const opening: Point[] =
    depth < 200
      ? [
          [0, depth],
          [30, depth - 5],
          [52, 176],
          [62, 156],
        ]
      : [
          [0, depth],
          [16, depth - 22],
          [44, 178],
          [62, 158],
        ]
  const outline = smooth(mirrored([...opening, ...SHOULDER]), true)
  const creases = bothSides((side) =>
    together(
      line(curve([side * 88, 196], [side * 104, 250], [side * 96, 330]), dark, 7, 0.34),
      line(curve([side * 168, 236], [side * 176, 300], [side * 168, 420]), dark, 9, 0.5),
      line(curve([side * 130, 215], [side * 140, 270], [side * 130, 350]), light, 10, 0.3),
      line(curve([side * 44, 270], [side * 40, 330], [side * 50, 460]), dark, 6, 0.25),
    ),
  )
  const edge = bothSides((side) => line(smooth(onSide(SHOULDER.slice(0, 8), side)), dark, 14, 0.5))
  return [
    `<clipPath id="torso"><path d="${outline}"/></clipPath>`,
    `<g clip-path="url(#torso)">${crisp(fill(outline, color))}${blurred(4, creases)}${blurred(8, edge)}</g>`,
  ].join('')
}
