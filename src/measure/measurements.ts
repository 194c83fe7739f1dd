import { type Static, type TSchema, Type } from '@sinclair/typebox'
import { Fault } from './fault.ts'
import { Metadata } from './metadata/schema.ts'

/** Raised whenever a definition below or the code behind it changes a value. */
export const MEASURER_VERSION = 3

const closed = { additionalProperties: false }
const orNull = <S extends TSchema>(schema: S) => Type.Union([schema, Type.Null()])
const percent = (description: string) => Type.Number({ description })

/** A place in the picture as displayed: fractions of width (x, right) and height (y, down), origin top left. */
export const Point = Type.Object({ x: Type.Number(), y: Type.Number() }, closed)
export type Point = Static<typeof Point>

/** A rectangle in the picture as displayed, in fractions of width and height. */
export const Box = Type.Object(
  { x: Type.Number(), y: Type.Number(), width: Type.Number(), height: Type.Number() },
  closed,
)
export type Box = Static<typeof Box>

/** Why a measured value is not to be trusted. Codes; the sentences live with the rules. */
export const Doubt = Type.Union([
  Type.Literal('backdrop-not-plain'),
  Type.Literal('backdrop-too-small'),
  Type.Literal('backdrop-transparent'),
  Type.Literal('no-face'),
  Type.Literal('face-uncertain'),
  Type.Literal('face-too-small'),
  Type.Literal('face-turned'),
  Type.Literal('crown-out-of-frame'),
  Type.Literal('crown-merges-with-backdrop'),
  Type.Literal('crown-implausible'),
  Type.Literal('eyes-implausible'),
  Type.Literal('chin-implausible'),
  Type.Literal('hand-or-object-above-head'),
  Type.Literal('skin-too-small'),
  Type.Literal('skin-too-dark'),
  Type.Literal('skin-colorless'),
  Type.Literal('cheek-covered'),
  Type.Literal('eyes-too-small'),
  Type.Literal('lenses-dark'),
  Type.Literal('eyes-too-small-for-focus'),
  Type.Literal('eyes-without-edges'),
])
export type Doubt = Static<typeof Doubt>

export const PROFILES = ['sRGB', 'Adobe RGB (1998)', 'Display P3', 'ProPhoto RGB', 'other', 'none'] as const
export const Profile = Type.Union(
  PROFILES.map((name) => Type.Literal(name)),
  { description: 'Identity of the ICC profile by its colorants and curve, never by the name it carries.' },
)
export type Profile = (typeof PROFILES)[number]

export const Color = Type.Object(
  {
    space: Type.Union([Type.Literal('rgb'), Type.Literal('grey'), Type.Literal('cmyk')]),
    profile: Type.Unsafe<Profile>(Profile),
    profileName: orNull(
      Type.String({ description: 'The name the profile carries, as text from a stranger.' }),
    ),
  },
  closed,
)
export type Color = Static<typeof Color>

export const Jpeg = Type.Object(
  {
    quality: orNull(
      Type.Integer({
        minimum: 1,
        maximum: 100,
        description: 'IJG quality; null when the tables are not the IJG scaling of ITU-T T.81 Annex K.',
      }),
    ),
    tables: Type.Union([Type.Literal('ijg'), Type.Literal('non-standard')]),
    subsampling: Type.String({
      description:
        'Chroma subsampling such as 4:4:4 or 4:2:0; "none" for one component; "other" when unusual.',
    }),
    progressive: Type.Boolean(),
  },
  closed,
)
export type Jpeg = Static<typeof Jpeg>

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

export const Background = Type.Object(
  {
    luminanceL: Type.Number({ description: 'Median CIE L* (D50) of the backdrop, hair edges left out.' }),
    evennessL: Type.Number({ minimum: 0, description: 'P95 - P5 of the smoothed L* over the backdrop.' }),
    chromaC: Type.Number({ minimum: 0, description: 'CIE C*ab of the median backdrop color.' }),
    hueDeg: Type.Number({
      minimum: 0,
      maximum: 360,
      description: 'CIE hue angle of the median backdrop color.',
    }),
    lab: Type.Object({ L: Type.Number(), a: Type.Number(), b: Type.Number() }, closed),
    coveragePct: percent("The backdrop's share of the frame."),
    intrusions: orNull(
      Type.Array(Intrusion, {
        description:
          "What stands at the frame's edge and is neither backdrop nor sitter, largest first; null when no face tells where the sitter is.",
      }),
    ),
    confidence: Type.Number({ minimum: 0, maximum: 1 }),
    doubts: Type.Array(Doubt),
  },
  closed,
)
export type Background = Static<typeof Background>

export const Face = Type.Object(
  {
    count: Type.Integer({ minimum: 0, description: 'Faces found.' }),
    score: Type.Number({
      minimum: 0,
      maximum: 1,
      description: 'Detector score of the largest face; 0 when none.',
    }),
    others: Type.Array(Type.Object({ box: Box, score: Type.Number() }, closed), {
      description: 'Faces beside the largest.',
    }),
    box: orNull(Box),
    leftEye: orNull(Point),
    rightEye: orNull(Point),
    eyeDistancePx: orNull(Type.Number({ description: 'Distance of the iris centers in full-size px.' })),
    tiltDeg: orNull(Type.Number({ description: 'Roll of the eye line, positive clockwise in the frame.' })),
    turnDeg: orNull(
      Type.Number({ description: 'Yaw; positive when the face turns to the right of the frame.' }),
    ),
    nodDeg: orNull(Type.Number({ description: 'Pitch; positive when the chin is raised.' })),
    confidence: Type.Number({ minimum: 0, maximum: 1 }),
    doubts: Type.Array(Doubt),
  },
  closed,
)
export type Face = Static<typeof Face>

export const Head = Type.Object(
  {
    crown: orNull(Point),
    chin: orNull(Point),
    headroomPct: orNull(percent('Crown y x 100.')),
    eyeLinePct: orNull(percent('Mean iris y x 100, from the top edge.')),
    headHeightPct: orNull(percent('Crown to chin along the face axis, projected on the height.')),
    headHeightErrorPct: orNull(
      percent('How far headHeightPct may be off to either side since a beard hides the chin; 0 without one.'),
    ),
    offCenterPct: orNull(percent('(Mid-eyes x - 0.5) x 100; positive right.')),
    confidence: Type.Number({ minimum: 0, maximum: 1 }),
    doubts: Type.Array(Doubt),
  },
  closed,
)
export type Head = Static<typeof Head>

const sureness = {
  confidence: Type.Number({ minimum: 0, maximum: 1 }),
  doubts: Type.Array(Doubt),
}

export const SKIN_PARTS = ['forehead', 'nose', 'left-cheek', 'right-cheek'] as const
/** A part of the face that is bare skin on nearly everybody; left and right as seen in the frame. */
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

export const Focus = Type.Object(
  {
    eyePx: orNull(
      Type.Number({
        description:
          'Edge spread (Gaussian sigma) at the lids and iris of the sharper eye, in px at an inter-eye distance of 240 px.',
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
    ...sureness,
  },
  closed,
)
/** Sharpness of the eyes. Left and right are as seen in the frame. */
export type Focus = Static<typeof Focus>

export const Finish = Type.Object(
  {
    eyeFocusPx: orNull(
      Type.Number({ description: 'As focus.eyePx; null when the group focus was not asked for.' }),
    ),
    focus: orNull(Focus),
    lensGlarePct: orNull(percent('Share of the eye region under reflected light, at the worse eye.')),
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
        description: 'Brighter over darker cheek in stops: log2 of linear luminance.',
      }),
    ),
    key: Type.Object(sureness, closed),
  },
  closed,
)
/** What a retoucher sees at full size. Left and right are as seen in the frame. */
export type Finish = Static<typeof Finish>

const Grid = Type.Object(
  {
    columns: Type.Integer({ minimum: 1, maximum: 64 }),
    rows: Type.Integer({ minimum: 1, maximum: 64 }),
    luma: Type.String({
      maxLength: 5464,
      pattern: '^[A-Za-z0-9+/]+=*$',
      description:
        'Base64 of one byte a cell, row by row from the top left: luma 1 to 255; 0 outside the frame.',
    }),
  },
  closed,
)
/** A small grid of luma. */
export type SignatureGrid = Static<typeof Grid>

export const PictureSignature = Type.Object(
  {
    face: Type.Union([Grid, Type.Null()], {
      description: 'The face, laid out by the irises; null without a face.',
    }),
    head: Type.Union([Grid, Type.Null()], { description: 'Head, hair and shoulders, coarser.' }),
    frame: Grid,
  },
  {
    ...closed,
    description:
      'What of a picture stays the same when it is saved again, resized or cropped. Made from a face: kept in memory and in the parts of a divided run only.',
  },
)
export type PictureSignature = Static<typeof PictureSignature>

/** What the header and the bytes say; measured for every file. Null where the file can't be read that far. */
export const fileProperties = {
  measurer: Type.Integer({ description: 'Version of the definitions these values follow.' }),
  file: Type.String({ description: 'Path relative to the delivery root, with /.' }),
  bytes: Type.Integer({ minimum: 0 }),
  sha256: orNull(Type.String({ pattern: '^[0-9a-f]{64}$' })),
  format: orNull(
    Type.String({ description: 'From the content, not the extension: jpeg, png, tiff, webp, ...' }),
  ),
  fault: orNull(Fault),
  widthPx: orNull(Type.Integer({ description: 'Displayed width (EXIF orientation applied).' })),
  heightPx: orNull(Type.Integer()),
  orientationTag: orNull(
    Type.Integer({ minimum: 1, maximum: 8, description: 'EXIF orientation as stored; null when absent.' }),
  ),
  ppi: orNull(Type.Number()),
  bitsPerChannel: orNull(Type.Integer()),
  channels: orNull(Type.Integer()),
  hasAlpha: orNull(Type.Boolean()),
  color: orNull(Color),
  jpeg: orNull(Jpeg),
  intact: orNull(
    Type.Boolean({ description: 'Decodes to the last row with no warning; null when not decoded.' }),
  ),
}
export const FileMeasurements = Type.Object(fileProperties, closed)
export type FileMeasurements = Static<typeof FileMeasurements>

/** Everything known of one file. A group that was not asked for is absent. Plain JSON, spec-independent. */
export const Measurements = Type.Object(
  {
    ...fileProperties,
    metadata: Type.Optional(orNull(Metadata)),
    background: Type.Optional(orNull(Background)),
    face: Type.Optional(orNull(Face)),
    head: Type.Optional(orNull(Head)),
    finish: Type.Optional(orNull(Finish)),
    signature: Type.Optional(orNull(PictureSignature)),
  },
  closed,
)
export type Measurements = Static<typeof Measurements>

export const GROUPS = [
  'file',
  'decode',
  'metadata',
  'background',
  'face',
  'head',
  'finish',
  'focus',
  'signature',
] as const
/** Groups of measurements that can be asked for; each is computed only when some rule needs it. */
export type MeasurementGroup = (typeof GROUPS)[number]
