import { type Static, Type } from '@sinclair/typebox'
import { Box, closed, orNull, percent, sureness } from './common.ts'
import { EyePair } from './eye-pair.ts'
import { SkinTint } from './skin-tint.ts'

/**
 * Inter-eye distance at which edge spreads are told, so that files of different sizes compare, px.
 * @source ISO/IEC 39794-5:2019, D.1, which recommends it for portraits; from memory.
 */
export const FOCUS_EYE_DISTANCE_PX = 240

/**
 * Blurs between which the texture of skin lies, sigma in px at an inter-eye distance of {@link FOCUS_EYE_DISTANCE_PX}.
 * @tuned on 19 of 51 studio portraits and the same smoothed: an octave finer grain of 4 codes hides it, an octave coarser smoothing leaves it.
 */
export const TEXTURE_BAND_PX = { fine: 1.2, coarse: 2.4 } as const

/**
 * Ends of the scale from which on a channel is clipped, codes.
 * @choice one code beside each end: a lossy file seldom keeps a clipped area at exactly 255 or 0.
 */
export const CLIPPED = { high: 254, low: 1 } as const

/**
 * Ratio of the cheeks below which neither is the brighter one, stops.
 * @tuned on about 220 drawn portraits of all tones, whose ratios are measured within 0.07 stop; rounded up.
 */
export const EVEN_KEY_STOPS = 0.1

const SKIN_PARTS = [
  'forehead',
  'upper-forehead',
  'nose',
  'left-cheek',
  'right-cheek',
  'left-cheekbone',
  'right-cheekbone',
  'chin',
] as const
/** A part of the face; left and right as seen in the frame. */
export type SkinPart = (typeof SKIN_PARTS)[number]
const skinPart = orNull(Type.Unsafe<SkinPart>(Type.Union(SKIN_PARTS.map((part) => Type.Literal(part)))))

export const EyeGlare = Type.Object(
  {
    glarePct: Type.Number({
      minimum: 0,
      maximum: 100,
      description: 'Share of the eye region under reflected light, catchlights not counted.',
    }),
    box: orNull(Box),
    catchlights: Type.Integer({ minimum: 0, description: 'Small reflections of a light in the iris.' }),
  },
  closed,
)
/** One eye with what a spectacle lens before it reflects; `box` holds all of the glare, null when there is none. */
export type EyeGlare = Static<typeof EyeGlare>

export const Spectacles = Type.Object(
  {
    worn: orNull(Type.Boolean({ description: 'Whether spectacles are more likely worn than not.' })),
    frameContrast: orNull(
      Type.Number({
        minimum: 0,
        description:
          'Contrast of the lines over the nose and under the eyes, of which frames have more than bare skin, as a share of lightness.',
      }),
    ),
    ...sureness,
  },
  closed,
)
/** Whether spectacles are worn. */
export type Spectacles = Static<typeof Spectacles>

export const Focus = Type.Object(
  {
    eyePx: orNull(
      Type.Number({
        description: `Edge spread (Gaussian sigma) at the lids and iris of the sharper eye, in px at an inter-eye distance of ${FOCUS_EYE_DISTANCE_PX} px.`,
      }),
    ),
    leftPx: orNull(Type.Number()),
    rightPx: orNull(Type.Number()),
    finestEdgePx: orNull(
      Type.Number({ description: 'The same spread as eyePx in px of the file as it is.' }),
    ),
    sharperPlace: orNull(
      Type.Union([Type.Literal('nose'), Type.Literal('ear')], {
        description: 'What beside the eyes is clearly sharper than they are.',
      }),
    ),
    haloPct: orNull(
      Type.Number({
        description:
          'Height of the halos beside strong edges at the eyes, in percent of the height of the edge; null where the eyes are too small in the file.',
      }),
    ),
    haloOfGrainPct: orNull(
      Type.Number({ minimum: 0, description: 'How much of haloPct grain may be; null where that is null.' }),
    ),
    ...sureness,
  },
  closed,
)
/** Sharpness of the eyes. Left and right are as seen in the frame. */
export type Focus = Static<typeof Focus>

export const Enlargement = Type.Object(
  {
    found: orNull(Type.Boolean({ description: 'Whether the picture shows that it was enlarged.' })),
    ...sureness,
  },
  closed,
)
/** Traces of an enlargement. */
export type Enlargement = Static<typeof Enlargement>

export const Finish = Type.Object(
  {
    eyeFocusPx: orNull(
      Type.Number({ description: 'As focus.eyePx; null when the group focus was not asked for.' }),
    ),
    focus: orNull(Focus),
    enlargement: orNull(Enlargement),
    spectacles: Spectacles,
    lensGlarePct: orNull(
      percent(
        'Share of the eye region under reflected light, at the worse eye; 0 where surely no spectacles are worn.',
      ),
    ),
    lensGlare: Type.Object({ left: orNull(EyeGlare), right: orNull(EyeGlare), ...sureness }, closed),
    clippedHighlightPct: orNull(percent('Share of face skin with a channel at the top of the scale.')),
    clippedShadowPct: orNull(percent('Share of face skin with a channel at the bottom of the scale.')),
    clipping: Type.Object(
      { highlightPart: skinPart, shadowPart: skinPart, ...sureness },
      { ...closed, description: 'The parts of the face where most is clipped; null where nothing is.' },
    ),
    keySide: orNull(
      Type.Union([Type.Literal('left'), Type.Literal('right'), Type.Literal('none')], {
        description: 'Side of the brighter cheek as seen in the frame; none when they do not differ.',
      }),
    ),
    keyRatioStops: orNull(
      Type.Number({
        minimum: 0,
        description:
          'Light of the brighter side of the face over that of the darker in stops: log2 of linear light at mirrored parts.',
      }),
    ),
    keyRatioErrorStops: orNull(
      Type.Number({ minimum: 0, description: 'How far that may be off to either side, stops (95 %).' }),
    ),
    key: Type.Object(sureness, closed),
    skinTint: SkinTint,
    eyePair: orNull(EyePair),
    skinTexturePct: orNull(
      Type.Number({
        minimum: 0,
        description:
          'Contrast of the fine texture of the skin, 1 to 3 mm wide, without grain, in percent of its lightness.',
      }),
    ),
    texture: Type.Object(sureness, closed),
  },
  closed,
)
/** What a retoucher sees at full size. Left and right are as seen in the frame. */
export type Finish = Static<typeof Finish>
