import type { Frame } from '../drawing/frame.ts'
import { drawPortrait, type Portrait } from '../drawing/portrait.ts'
import type { Sitter } from '../drawing/sitters.ts'
import { type Deliverable, OUTPUTS, type Output, pictureOf } from './house-style.ts'
import { type Saving, saved } from './saving.ts'

/** One fault in one file of the faulty delivery, and the rules that must fail there and no other. */
export interface Planted {
  readonly family: string
  readonly deliverable: Deliverable
  readonly fault: string
  readonly rules: readonly string[]
  /** Those of the rules whose miss waivers.yaml lets through. */
  readonly waived?: readonly string[]
  readonly picture?: Partial<Frame>
  readonly output?: Partial<Output>
  readonly saving?: Saving
  readonly staffId?: string
}

/** The file with its fault; `picture` is the sitter's faultless one. */
export async function spoilt(planted: Planted, sitter: Sitter, picture: Portrait): Promise<Buffer> {
  const drawn =
    planted.picture === undefined
      ? picture
      : await drawPortrait(sitter.look, { ...pictureOf(sitter), ...planted.picture })
  return saved(
    drawn,
    sitter,
    { ...OUTPUTS[planted.deliverable], ...planted.output },
    planted.saving ?? 'jpeg',
  )
}
