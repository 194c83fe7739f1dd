import type { FramingAsk } from './ask.ts'
import type { Rect } from './room.ts'
import type { Sitter } from './sitter.ts'
import type { Turned } from './turned.ts'

/** Which crop of a frame is looked for. */
export interface Problem {
  readonly sitter: Sitter
  readonly ask: FramingAsk
  /** Regions to leave out, in px of the frame. */
  readonly intrusions: readonly Rect[]
  /** Whether crown, chin and face must stay in the crop. */
  readonly wholeHead: boolean
  /** Whether the crop must stay within the file's frame, or may reach beyond it, where the camera's uncropped frame may have pixels. */
  readonly framed: boolean
  /** Whether the crop must have the pixels that the spec requires; its shape is required in any case. */
  readonly enoughPixels: boolean
  /** Share of the safety margin that is kept, 0..1; see margin.ts. */
  readonly marginShare: number
  /** Share of the errors told by which everything must be within its limits, or with -1 may be beyond them; that of the margin unless told. */
  readonly errorShare?: number
  /** Whether errors count in full where they leave hardly any room, too; else they are reduced there. */
  readonly strictErrors?: boolean
  /** Set where the frame is a turned picture, in which a framed crop must lie. */
  readonly turned?: Turned
}
