/**
 * Smallest spread of a set that makes a portrait stand out of it, each in its unit: below a third of what shows side by
 * side, so that a set which looks alike has no outliers.
 * @choice common practice, no source
 */
export const LEAST_SPREAD = {
  headroomPct: 0.6,
  eyeLinePct: 0.5,
  headHeightPct: 0.6,
  faceHeightPct: 0.4,
  offCenterPct: 0.6,
  tiltDeg: 0.8,
  lightnessL: 0.4,
  unevennessL: 0.5,
  /** Of a*, b* or chroma. */
  tint: 0.4,
  keyStops: 0.12,
  eyeFocusPx: 0.2,
  /** Of the texture of the skin, doublings: it differs as much from sitter to sitter. */
  textureDoublings: 0.5,
} as const
