import { backdropEdge } from './backdrop/backdrop-edge.ts'
import { backgroundLightness } from './backdrop/background-lightness.ts'
import { backgroundPlain } from './backdrop/background-plain.ts'
import { backgroundTint } from './backdrop/background-tint.ts'
import { backgroundUnevenness } from './backdrop/background-unevenness.ts'
import { cutoutFringe } from './backdrop/cutout-fringe.ts'
import { cutoutHoles } from './backdrop/cutout-holes.ts'
import type { Rule } from './contract/rule.ts'
import { aspectRatio } from './file/aspect-ratio.ts'
import { bitDepth } from './file/bit-depth.ts'
import { colorSpace } from './file/color-space.ts'
import { compression } from './file/compression.ts'
import { fileFormat } from './file/file-format.ts'
import { fileName } from './file/file-name.ts'
import { fileSize } from './file/file-size.ts'
import { intact } from './file/intact.ts'
import { orientation } from './file/orientation.ts'
import { pixelSize } from './file/pixel-size.ts'
import { resolution } from './file/resolution.ts'
import { clipping } from './finish/clipping.ts'
import { enlarged } from './finish/enlarged.ts'
import { eyeFocus } from './finish/eye-focus.ts'
import { eyesMatch } from './finish/eyes-match.ts'
import { keySide } from './finish/key-side.ts'
import { lensGlare } from './finish/lens-glare.ts'
import { sharpeningHalo } from './finish/sharpening-halo.ts'
import { skinCast } from './finish/skin-cast.ts'
import { skinTexture } from './finish/skin-texture.ts'
import { metadataForbidden } from './metadata/metadata-forbidden.ts'
import { metadataRequired } from './metadata/metadata-required.ts'
import { stalePreview } from './metadata/stale-preview.ts'
import { centering } from './sitter/centering.ts'
import { eyeLine } from './sitter/eye-line.ts'
import { facing } from './sitter/facing.ts'
import { headHeight } from './sitter/head-height.ts'
import { headroom } from './sitter/headroom.ts'
import { oneFace } from './sitter/one-face.ts'
import { tilt } from './sitter/tilt.ts'

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
  backgroundPlain,
  backgroundLightness,
  backgroundUnevenness,
  backgroundTint,
  backdropEdge,
  cutoutFringe,
  cutoutHoles,
  oneFace,
  headroom,
  eyeLine,
  headHeight,
  centering,
  tilt,
  facing,
  eyeFocus,
  sharpeningHalo,
  enlarged,
  eyesMatch,
  lensGlare,
  clipping,
  keySide,
  skinCast,
  skinTexture,
]
