import { type Static, Type } from '@sinclair/typebox'
import { Metadata } from './metadata/schema.ts'
import { Background } from './shapes/background.ts'
import { closed, orNull } from './shapes/common.ts'
import { Face } from './shapes/face.ts'
import { fileProperties } from './shapes/file.ts'
import { Finish } from './shapes/finish.ts'
import { Head } from './shapes/head.ts'
import { PictureSignature } from './shapes/signature.ts'

// Constants stand apart from the shapes: whoever only needs those does not load the library of schemas.
export { GROUPS, type MeasurementGroup } from './measurement-groups.ts'
export { MEASURER_VERSION } from './measurer-version.ts'
export { Background, Intrusion } from './shapes/background.ts'
export { Box, Doubt, Point } from './shapes/common.ts'
export { Face } from './shapes/face.ts'
export { Color, FileMeasurements, fileProperties, Jpeg, PROFILES, Profile } from './shapes/file.ts'
export { EyeGlare, Finish, Focus, SKIN_PARTS, type SkinPart } from './shapes/finish.ts'
export { Head } from './shapes/head.ts'
export { PictureSignature, type SignatureGrid } from './shapes/signature.ts'

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
