import { aspectRatio } from './aspect-ratio.ts'
import { backdropEdge } from './backdrop-edge.ts'
import { backgroundEvenness } from './background-evenness.ts'
import { backgroundLuminance } from './background-luminance.ts'
import { backgroundTint } from './background-tint.ts'
import { bitDepth } from './bit-depth.ts'
import { centering } from './centering.ts'
import { clipping } from './clipping.ts'
import { colorSpace } from './color-space.ts'
import { compression } from './compression.ts'
import { eyeFocus } from './eye-focus.ts'
import { eyeLine } from './eye-line.ts'
import { facing } from './facing.ts'
import { fileFormat } from './file-format.ts'
import { fileName } from './file-name.ts'
import { fileSize } from './file-size.ts'
import { headHeight } from './head-height.ts'
import { headroom } from './headroom.ts'
import { intact } from './intact.ts'
import { keySide } from './key-side.ts'
import { lensGlare } from './lens-glare.ts'
import { metadataForbidden } from './metadata-forbidden.ts'
import { metadataRequired } from './metadata-required.ts'
import { oneFace } from './one-face.ts'
import { orientation } from './orientation.ts'
import { pixelSize } from './pixel-size.ts'
import { resolution } from './resolution.ts'
import type { Rule } from './rule.ts'
import { stalePreview } from './stale-preview.ts'
import { tilt } from './tilt.ts'

/** Every rule on a single file, in the order in which they are shown: name, file, backdrop, sitter. */
export const RULES: readonly Rule[] = [
  fileName,
  fileFormat,
  intact,
  fileSize,
  pixelSize,
  aspectRatio,
  resolution,
  colorSpace,
  bitDepth,
  compression,
  orientation,
  metadataRequired,
  metadataForbidden,
  stalePreview,
  backgroundLuminance,
  backgroundEvenness,
  backgroundTint,
  backdropEdge,
  oneFace,
  headroom,
  eyeLine,
  headHeight,
  centering,
  tilt,
  facing,
  eyeFocus,
  lensGlare,
  clipping,
  keySide,
]
