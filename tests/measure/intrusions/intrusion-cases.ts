import type { Backdrop } from '../../../examples/drawing/frame.ts'
import type { Laid, Taken } from '../finish/composites.ts'

export interface IntrusionCase {
  readonly what: string
  readonly taken: Taken
  readonly laid: readonly Laid[]
  /** Where it stands, in px; none when nothing but backdrop and sitter is in the frame. */
  readonly box?: readonly [left: number, top: number, right: number, bottom: number]
}

const WHITE: Backdrop = { color: 240 }
const GRADED: Backdrop = { color: 236, fallOff: { stops: 1 / 3, towardsDeg: 45, from: 0 } }
const VIGNETTE: Backdrop = { color: 225, vignetteStops: 0.5 }
const SHADOWED: Backdrop = { color: 240, castShadowStops: 0.4 }
const GRAY: Backdrop = { color: 140 }
const BLUE: Backdrop = { color: { L: 62, a: -4, b: -18 } }
const BACKDROPS = [WHITE, GRADED, VIGNETTE, SHADOWED, GRAY, BLUE]
const FAMILIES = [
  'Adeyemi',
  'Bergström',
  'Castellanos',
  'Dhillon',
  'Eriksen',
  'Farouk',
  'Grieve',
  'Haile',
  'Ikeda',
  'Lund',
  'Mokoena',
  'Nair',
  'Okoro',
  'Pham',
  'Usman',
  'Wyn',
]
// All skin tones, all clothes. Few drawings, each used often.
const TAKEN: readonly Taken[] = FAMILIES.map((family, i) => ({
  family,
  backdrop: BACKDROPS[i % BACKDROPS.length] ?? WHITE,
  noise: [0.5, 1.2, 2.5][i % 3] ?? 1,
}))
let turn = 0
function next(): Taken {
  return TAKEN[turn++ % TAKEN.length] as Taken
}

const polygon = (points: string, fill = '#3a3630') => `<polygon points="${points}" fill="${fill}"/>`
const rect = (x: number, y: number, w: number, h: number, fill = '#3a3630') =>
  `<rect x="${x}" y="${y}" width="${w}" height="${h}" fill="${fill}"/>`

function wedge(
  corner: 'left' | 'right',
  legX: number,
  legY: number,
  look: Partial<Laid> & { fill?: string },
): IntrusionCase {
  const { fill, ...rest } = look
  const x = corner === 'left' ? 0 : 400
  const to = corner === 'left' ? legX : 400 - legX
  return {
    what: `wedge ${corner} ${legX} x ${legY} ${JSON.stringify(look)}`,
    taken: next(),
    laid: [{ svg: () => polygon(`${x},0 ${to},0 ${x},${legY}`, fill), where: 'behind', ...rest }],
    box: [Math.min(x, to), 0, Math.max(x, to), legY],
  }
}

function border(
  side: 'left' | 'right' | 'top',
  widths: readonly [number, number],
  look: Partial<Laid> & { fill?: string },
): IntrusionCase {
  const { fill, ...rest } = look
  const [a, b] = widths
  const points = {
    left: `0,0 ${a},0 ${b},500 0,500`,
    right: `400,0 ${400 - a},0 ${400 - b},500 400,500`,
    top: `0,0 400,0 400,${b} 0,${a}`,
  }[side]
  const most = Math.max(a, b)
  const box = { left: [0, 0, most, 500], right: [400 - most, 0, 400, 500], top: [0, 0, 400, most] } as const
  return {
    what: `border ${side} ${a} to ${b} ${JSON.stringify(look)}`,
    taken: next(),
    laid: [{ svg: () => polygon(points, fill), where: 'behind', ...rest }],
    box: box[side],
  }
}

function object(
  what: string,
  box: readonly [number, number, number, number],
  svg: string,
  look: Partial<Laid> = {},
): IntrusionCase {
  return { what, taken: next(), laid: [{ svg: () => svg, where: 'behind', ...look }], box }
}

/** A collapsible backdrop that ends before the frame does: a dark, sewn rim, straight or bent, and the wall beyond it. */
function rim(side: 'left' | 'right', at: number, bend: number, wallL: number): IntrusionCase {
  const [x, edge] = side === 'left' ? [at, 0] : [400 - at, 400]
  const middle = side === 'left' ? x - 2 * bend : x + 2 * bend
  const path = `M${x},-5 Q${middle},250 ${x},505`
  return {
    what: `rim ${side} ${at}, bent by ${bend}, wall ${wallL} L*`,
    taken: next(),
    laid: [
      {
        svg: () => `<path d="${path} L${edge},505 L${edge},-5 Z" fill="#000"/>`,
        where: 'behind',
        lift: wallL,
        blurPx: 1.5,
      },
      {
        svg: () => `<path d="${path}" fill="none" stroke="#55524e" stroke-width="5"/>`,
        where: 'behind',
        blurPx: 1.5,
      },
    ],
    box: side === 'left' ? [0, 0, at - bend, 500] : [400 - at + bend, 0, 400, 500],
  }
}

export const POSITIVES: readonly IntrusionCase[] = [
  ...[-10, -20].flatMap((wallL) => [
    rim('left', 30, 0, wallL),
    rim('right', 36, 0, wallL),
    rim('right', 42, 6, wallL),
  ]),
  // 0.5 % of the frame is a triangle with legs of 40 x 50 px.
  ...[
    {},
    { blurPx: 2 },
    { lift: -3 },
    { lift: -3, blurPx: 2 },
    { lift: -6 },
    { fill: '#8a6a4a' },
    { lift: -20 },
  ].flatMap((look) => [
    wedge('left', 40, 50, look),
    wedge('right', 90, 60, look),
    wedge('right', 50, 200, look),
  ]),
  ...[
    {},
    { lift: -3 },
    { lift: -3, blurPx: 2.5 },
    { lift: -5 },
    { fill: '#5b4b3b', blurPx: 2 },
    { lift: -25 },
  ].flatMap((look) => [
    border('left', [14, 22], look),
    border('right', [30, 24], look),
    border('right', [8, 8], look),
    border('left', [60, 50], look),
    border('top', [16, 12], look),
  ]),
  ...[4, 8, 14].flatMap((w) => [
    object(`stand ${w} px, full height`, [36, 0, 36 + w, 330], rect(36, 0, w, 500, '#26262a')),
    object(
      `stand ${w} px, leaning`,
      [350, 0, 370 + w, 330],
      polygon(`350,0 ${350 + w},0 ${370 + w},500 370,500`, '#303034'),
    ),
  ]),
  object('stand at the very edge', [0, 60, 9, 500], rect(0, 60, 9, 440, '#222')),
  object('clamp', [150, 0, 172, 26], rect(150, 0, 22, 26, '#202020')),
  object(
    'clamp, orange tips',
    [250, 0, 274, 20],
    rect(250, 0, 24, 14, '#202020') + rect(255, 12, 14, 8, '#e07020'),
  ),
  object('clamp, out of focus', [300, 0, 330, 24], rect(300, 0, 30, 24, '#383838'), { blurPx: 2 }),
  object(
    'light, round',
    [330, 0, 400, 66],
    '<circle cx="380" cy="20" r="46" fill="#333"/><circle cx="380" cy="20" r="38" fill="#777"/>',
  ),
  object('softbox corner', [0, 0, 80, 70], polygon('0,0 80,0 60,70 0,60', '#1c1c1c')),
  object('boom arm', [0, 50, 110, 66], polygon('0,58 110,50 110,58 0,66', '#2a2a2a')),
  object('reflector', [372, 60, 400, 200], '<ellipse cx="405" cy="130" rx="33" ry="70" fill="#c9a14a"/>'),
]

function negative(what: string, laid: readonly Laid[], change: Partial<Taken> = {}): IntrusionCase {
  return { what, taken: { ...next(), ...change }, laid }
}
const part = (svg: string, where: Laid['where'] = 'behind'): Laid[] => [
  { svg: () => svg, where, blurPx: 0.7 },
]
const stroke = (path: string, width: number, color: string) =>
  `<path d="${path}" fill="none" stroke="${color}" stroke-width="${width}" stroke-linecap="round" stroke-linejoin="round"/>`

/** Arms, hair and chairs that leave the frame; all hang together with the sitter. */
export const NEGATIVES: readonly IntrusionCase[] = [
  ...['#2f7f86', '#f2f1ee', '#5a3a28', '#c99a7a'].flatMap((color) => [
    negative(`raised elbow ${color}`, part(stroke('M110 400 Q 40 330 10 250 T -30 200', 56, color))),
    negative(
      `arm raised out of the top ${color}`,
      part(stroke('M320 410 Q 375 300 365 150 T 350 -30', 46, color)),
    ),
    negative(`elbow out of the side ${color}`, part(stroke('M310 400 Q 370 380 430 420', 60, color))),
    negative(`hand behind the head ${color}`, part(stroke('M120 420 L 20 260 L 130 170', 50, color))),
  ]),
  ...['#1c1512', '#6b4a2d', '#d8c08a', '#dcdcdc'].map((color) =>
    negative(
      `big hair to the edge ${color}`,
      part(`<ellipse cx="200" cy="180" rx="215" ry="150" fill="${color}"/>`),
    ),
  ),
  ...['#1c1512', '#8a5a30'].map((color) =>
    negative(`hair blown aside ${color}`, part(polygon('210,120 420,170 420,230 240,300', color))),
  ),
  ...['#202024', '#6a4a32', '#e8e8e6'].flatMap((color) => [
    negative(
      `chair back ${color}`,
      part(`<rect x="30" y="330" width="340" height="220" rx="40" fill="${color}"/>`),
    ),
    negative(
      `wheelchair handles ${color}`,
      part(
        rect(20, 390, 26, 200, color) +
          rect(-20, 385, 80, 18, color) +
          rect(354, 390, 26, 200, color) +
          rect(340, 385, 80, 18, color),
      ),
    ),
    negative(
      `wide chair ${color}`,
      part(`<rect x="-20" y="360" width="440" height="220" rx="30" fill="${color}"/>`),
    ),
  ]),
  ...BACKDROPS.flatMap((backdrop) =>
    ['Grieve', 'Okoro'].map((family) =>
      negative(`${family} alone, ${JSON.stringify(backdrop)}`, [], { family, backdrop }),
    ),
  ),
  ...FAMILIES.map((family, i) =>
    negative(`${family} alone, so tight that the frame cuts the hair`, [], {
      family,
      frame: {
        placement: { crownY: [0, -0.03, -0.06][i % 3] ?? 0, chinY: [0.62, 0.7, 0.68][i % 3] ?? 0.65 },
        offsetX: [0, 0.1, -0.12, 0.16][i % 4] ?? 0,
      },
    }),
  ),
  ...FAMILIES.map((family) =>
    negative(`${family} alone, vignette of a stop and a shadow`, [], {
      family,
      backdrop: { color: 230, vignetteStops: 1, castShadowStops: 0.8 },
      noise: 3,
    }),
  ),
]
