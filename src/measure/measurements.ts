import { type Static, Type } from '@sinclair/typebox'
import { Metadata } from './metadata/schema.ts'
import { Background } from './shapes/background.ts'
import { closed, orNull } from './shapes/common.ts'
import { Face } from './shapes/face.ts'
import { fileProperties } from './shapes/file.ts'
import { Finish } from './shapes/finish.ts'
import { Head } from './shapes/head.ts'
import { PictureSignature } from './shapes/signature.ts'

export { Background, Intrusion } from './shapes/background.ts'
export { Box, Doubt, Point } from './shapes/common.ts'
export { Face } from './shapes/face.ts'
export { Color, FileMeasurements, fileProperties, Jpeg, PROFILES, Profile } from './shapes/file.ts'
export { EyeGlare, Finish, Focus, SKIN_PARTS, type SkinPart } from './shapes/finish.ts'
export { Head } from './shapes/head.ts'
export { PictureSignature, type SignatureGrid } from './shapes/signature.ts'

/** Raised whenever a definition below or the code behind it changes a value. */
export const MEASURER_VERSION = 5

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
