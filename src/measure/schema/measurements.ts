import { type Static, Type } from '@sinclair/typebox'
import { Background } from './background.ts'
import { closed, orNull } from './common.ts'
import { Face } from './face.ts'
import { fileProperties } from './file.ts'
import { Finish } from './finish.ts'
import { Head } from './head.ts'
import { Metadata } from './metadata.ts'
import { PictureSignature } from './signature.ts'

export { Background, Fringe, Holes, Intrusion, Straightening } from './background.ts'
export { Box, Doubt } from './common.ts'
export { EyePair } from './eye-pair.ts'
export { Face } from './face.ts'
export { Color, FileMeasurements, Jpeg, PROFILES, Profile } from './file.ts'
export { Enlargement, EyeGlare, Finish, Focus, type SkinPart, Spectacles } from './finish.ts'
export { Head } from './head.ts'
// Constants stand apart from the shapes: whoever only needs those does not load the library of schemas.
export { GROUPS, type MeasurementGroup } from './measurement-groups.ts'
export { MEASURER_VERSION } from './measurer-version.ts'
export { PictureSignature, type SignatureGrid } from './signature.ts'
export { SkinTint } from './skin-tint.ts'

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
