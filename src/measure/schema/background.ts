import { type Static, Type } from '@sinclair/typebox'
import { Box, closed, Doubt, orNull, percent } from './common.ts'

/**
 * Smallest intrusion that is told, % of the frame.
 * @choice no source: what is smaller is not told from a speck. Of a picture of 1600 x 2000 px it is 57 x 57 px.
 */
export const SMALLEST_INTRUSION_PCT = 0.1

/**
 * Share of what is behind the sitter that follows one smooth surface at which a backdrop is half taken for plain, %.
 * @tuned on 62 photographs before plain walls and sky, all of which have 78 or more, and on 54 before rooms, streets and leaves, of which 43 have
 * less.
 */
export const HALF_PLAIN_PCT = 75

const Share = Type.Number({ minimum: 0, maximum: 100 })

export const Intrusion = Type.Object(
  {
    side: Type.Union(
      [Type.Literal('top'), Type.Literal('right'), Type.Literal('bottom'), Type.Literal('left')],
      { description: 'Side of the frame that it is cropped from with the least loss.' },
    ),
    box: Box,
    areaPct: percent('Its share of the frame.'),
  },
  closed,
)
export type Intrusion = Static<typeof Intrusion>

export const Straightening = Type.Object(
  {
    fill: Type.Union(
      [Type.Literal('flat'), Type.Literal('transparent'), Type.Literal('smeared'), Type.Literal('mirrored')],
      {
        description:
          'What fills them: one color, nothing, the outermost pixels of the picture repeated, or the picture mirrored.',
      },
    ),
    color: orNull(
      Type.Array(Type.Number({ minimum: 0, maximum: 255 }), {
        minItems: 3,
        maxItems: 3,
        description: 'Red, green and blue of a flat fill, sRGB codes.',
      }),
    ),
    angleDeg: Type.Number({
      minimum: 0,
      maximum: 90,
      description: 'By how much the picture was turned, degrees; 0 for strips.',
    }),
    areaPct: percent('Their share of the frame, all together.'),
    regions: Type.Array(
      Type.Object(
        {
          side: Type.Union(
            [Type.Literal('top'), Type.Literal('right'), Type.Literal('bottom'), Type.Literal('left')],
            { description: 'Side of the frame along which it runs.' },
          ),
          box: Box,
        },
        closed,
      ),
    ),
  },
  closed,
)
export type Straightening = Static<typeof Straightening>

export const Fringe = Type.Object(
  {
    outlinePct: percent(
      'Share of the outline of head and shoulders along which a thin line of one color is lighter, or darker, than both backdrop and sitter.',
    ),
    tone: orNull(
      Type.Union([Type.Literal('light'), Type.Literal('dark')], {
        description: 'Whether it is lighter or darker than both; null where there is none.',
      }),
    ),
    contrastL: orNull(
      Type.Number({ minimum: 0, description: 'By how much, L*, in the median; null where there is none.' }),
    ),
  },
  closed,
)
/** What a mask leaves along a sitter who was put before another backdrop. */
export type Fringe = Static<typeof Fringe>

export const Holes = Type.Object(
  {
    boxes: Type.Array(Box, { description: 'Boxes around them, that of the largest first.' }),
    areaPct: percent('Their share of the frame, all together.'),
  },
  closed,
)
/** Where the backdrop shows through the sitter. */
export type Holes = Static<typeof Holes>

export const Background = Type.Object(
  {
    lightnessL: Type.Number({ description: 'Median CIE L* (D50) of the backdrop, hair edges left out.' }),
    unevennessL: Type.Number({ minimum: 0, description: 'P95 - P5 of the smoothed L* over the backdrop.' }),
    chromaC: Type.Number({ minimum: 0, description: 'CIE C*ab of the median backdrop color.' }),
    hueDeg: Type.Number({
      minimum: 0,
      maximum: 360,
      description: 'CIE hue angle of the median backdrop color.',
    }),
    lab: Type.Object({ L: Type.Number(), a: Type.Number(), b: Type.Number() }, closed),
    coveragePct: percent("The backdrop's share of the frame."),
    plainPct: orNull(
      percent(
        'Share of what is behind the sitter, beside and above the head, whose color follows one smooth surface (within 6 ΔE*ab); null without a face, and where too little of it shows.',
      ),
    ),
    sides: Type.Optional(
      Type.Object(
        { leftL: Type.Number(), rightL: Type.Number() },
        {
          ...closed,
          description:
            'Median CIE L* (D50) of the backdrop in the left third of the frame and in the right one; absent where too little of it shows in either.',
        },
      ),
    ),
    edges: Type.Object(
      { topPct: Share, rightPct: Share, bottomPct: Share, leftPct: Share },
      {
        ...closed,
        description: 'The share of each side of the frame at which it is the backdrop that ends.',
      },
    ),
    intrusions: orNull(
      Type.Array(Intrusion, {
        description:
          "What stands at the frame's edge and is neither backdrop nor sitter, largest first; null when nothing tells where the sitter is: no face, or a head that passes for backdrop.",
      }),
    ),
    straightening: orNull(
      Type.Object(Straightening.properties, {
        ...closed,
        description:
          'Wedges or strips along the sides that turning the picture, or enlarging its canvas, left uncropped; null when there are none.',
      }),
    ),
    fringe: orNull(
      Type.Object(Fringe.properties, {
        ...closed,
        description:
          'A fringe along the outline of the sitter; null without a face, with one too small, and where too little of the outline shows.',
      }),
    ),
    holes: orNull(
      Type.Object(Holes.properties, {
        ...closed,
        description:
          'Places where the backdrop shows through the sitter; null without a face, with one too small, and before a backdrop too uneven to tell.',
      }),
    ),
    confidence: Type.Number({ minimum: 0, maximum: 1 }),
    doubts: Type.Array(Doubt),
  },
  closed,
)
export type Background = Static<typeof Background>
