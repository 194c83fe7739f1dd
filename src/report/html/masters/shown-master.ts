import type { SmallPicture } from '../pictures.ts'

/** A place in a picture, as shares of its width and height. */
export interface Place {
  readonly x: number
  readonly y: number
}

/** A file that is made of a master, or can't be. */
export interface ShownFile {
  /** `made` now, `kept` from an earlier run, `planned`; `held-back` or `refused` for its reasons; `question` where a person must say. */
  readonly state: 'made' | 'kept' | 'planned' | 'held-back' | 'refused' | 'question'
  readonly deliverable: string | null
  /** Its path in the delivery; null where there is none, or where it concerns the master as a whole. */
  readonly file: string | null
  /** Corners of its crop, in order; none where nothing is cropped. */
  readonly corners: readonly Place[]
  /** What was done to make it, in words. */
  readonly facts: readonly string[]
  readonly reasons: readonly string[]
}

/** A master with all that is made of it. */
export interface ShownMaster {
  /** Its path in the folder of masters. */
  readonly file: string
  /** As displayed, px; null where it could not be read, or was not among the masters of this run. */
  readonly size: { readonly widthPx: number; readonly heightPx: number } | null
  /** Null where it can't be shown. */
  readonly picture: SmallPicture | null
  readonly files: readonly ShownFile[]
}
