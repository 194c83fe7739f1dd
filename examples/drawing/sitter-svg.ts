import { beard } from './beard.ts'
import { brows } from './brows.ts'
import { clothes } from './clothes.ts'
import { ears, neck } from './ears-and-neck.ts'
import { eyes } from './eyes.ts'
import { hair } from './hair.ts'
import { headwear } from './headwear.ts'
import type { Look } from './look.ts'
import { AT_REST, type Moment, turned } from './moment.ts'
import { mouth, nose } from './nose-and-mouth.ts'
import { paletteOf } from './palette.ts'
import { mm } from './path.ts'
import { seededRandom } from './random.ts'
import type { Reflections } from './reflections.ts'
import type { Scene } from './scene.ts'
import { skin } from './skin.ts'
import { spectacles } from './spectacles.ts'

/** Where the sitter stands on the canvas: mid-eyes in px, px per drawing millimeter, tilt in degrees clockwise. */
export interface Stand {
  readonly x: number
  readonly y: number
  readonly scale: number
  readonly tiltDeg: number
}

/** Below the eyes, where the neck bends, and how far the body is raised towards the chin; mm. */
const NECK_PIVOT = 150
const SHOULDERS_UP = 20

/** The sitter on a transparent canvas. */
export function sitterSvg(
  look: Look,
  key: -1 | 1,
  reflections: Reflections,
  stand: Stand,
  widthPx: number,
  heightPx: number,
  change: Partial<Moment> = {},
): string {
  const moment = { ...AT_REST, ...change }
  const random = seededRandom(look.seed)
  const scene: Scene = { look, palette: paletteOf(look), key, random, reflections, moment }
  const covered = look.headwear === 'headscarf' || look.headwear === 'turban' || look.headwear === 'scrub-cap'
  const locks = covered ? { behind: '', over: '' } : hair(scene)
  const hat = headwear(scene)
  const turn = (stand.tiltDeg * Math.PI) / 180
  const shoulders = `translate(${mm(-NECK_PIVOT * Math.sin(turn))} ${mm(NECK_PIVOT * (Math.cos(turn) - 1) - SHOULDERS_UP)})`
  const head = (content: string): string => `<g transform="rotate(${mm(stand.tiltDeg)})">${content}</g>`
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}" viewBox="0 0 ${widthPx} ${heightPx}">`,
    `<g transform="translate(${stand.x.toFixed(3)} ${stand.y.toFixed(3)}) scale(${stand.scale.toFixed(5)})">`,
    head(turned('hair', moment, locks.behind + hat.behind)),
    `<g transform="${shoulders}">${neck(scene)}${clothes(scene)}</g>`,
    head(
      [
        look.headwear === 'headscarf' ? '' : turned('ears', moment, ears(scene)),
        turned('face', moment, skin(scene)),
        turned('nose', moment, nose(scene)),
        turned('mouth', moment, mouth(scene)),
        eyes(scene),
        turned('beard', moment, beard(scene)),
        turned('brows', moment, brows(scene)),
        turned('face', moment, locks.over + hat.over),
        turned('spectacles', moment, spectacles(scene)),
      ].join(''),
    ),
    '</g></svg>',
  ].join('')
}
