import type { Rgb } from './color.ts'
import { onSide, type Point, smooth } from './path.ts'
import { blurred, crisp, fill, line } from './scene.ts'

/** White cloth before white paper is still darker than the paper, which has lights of its own. */
const CLOTH: Rgb = [227, 230, 233]
const LAPEL: Rgb = [238, 240, 242]
const FOLD: Rgb = [158, 163, 174]
const SHADOW: Rgb = [90, 92, 104]

const EDGE: readonly Point[] = [
  [76, 174],
  [112, 189],
  [168, 203],
  [208, 225],
  [230, 268],
  [240, 340],
]
const REST: readonly Point[] = [
  [248, 480],
  [254, 700],
  [258, 1200],
  [40, 1200],
  [34, 420],
  [44, 330],
]
const FLAP: readonly Point[] = [
  [66, 156],
  [80, 176],
  [92, 222],
  [76, 240],
  [86, 252],
  [44, 332],
  [52, 262],
  [58, 206],
]

/** An open white coat over shirt or scrubs. */
export function coat(): string {
  return half(-1) + half(1)
}

function half(side: -1 | 1): string {
  const panel = polygon(onSide([[66, 158], ...EDGE, ...REST], side))
  const flap = polygon(onSide(FLAP, side))
  const folds: Point[][] = [
    [
      [168, 236],
      [178, 300],
      [168, 420],
    ],
    [
      [112, 250],
      [120, 320],
      [112, 420],
    ],
  ]
  return [
    `<clipPath id="coat${side}"><path d="${panel}"/></clipPath>`,
    `<g clip-path="url(#torso)">${blurred(4, line(smooth(onSide(REST.slice(-3), side)), SHADOW, 5, 0.4))}</g>`,
    `<g clip-path="url(#coat${side})">${crisp(fill(panel, CLOTH))}`,
    blurred(4, ...folds.map((fold) => line(smooth(onSide(fold, side)), FOLD, 7, 0.6))),
    blurred(7, line(smooth(onSide(EDGE, side)), FOLD, 9, 0.8)),
    `<g transform="translate(${side * 2} 4)">${blurred(2, line(flap, SHADOW, 3, 0.5))}</g></g>`,
    crisp(fill(flap, LAPEL), line(flap, FOLD, 0.7, 0.9)),
  ].join('')
}

function polygon(points: readonly Point[]): string {
  return `M${points.map(([x, y]) => `${x} ${y}`).join('L')}Z`
}
