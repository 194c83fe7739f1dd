import type { AnyRule, DeliveryRule } from './delivery-rule.ts'
import { duplicatePicture } from './duplicate-picture.ts'
import { RULES } from './index.ts'
import { pickedFrame } from './picked-frame.ts'
import { roster } from './roster.ts'
import { sameFrameRule } from './same-frame.ts'
import { setMatch } from './set-match.ts'
import { variants } from './variants.ts'

/** Every rule over the whole delivery, in the order in which they are shown: who, what, and how it hangs together. */
export const DELIVERY_RULES: readonly DeliveryRule[] = [
  roster,
  variants,
  duplicatePicture,
  sameFrameRule,
  pickedFrame,
  setMatch,
]

/** Both kinds, those on single files first. */
export const ALL_RULES: readonly AnyRule[] = [...RULES, ...DELIVERY_RULES]
