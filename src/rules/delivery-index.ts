import type { AnyRule, DeliveryRule } from './contract/delivery-rule.ts'
import { duplicatePicture } from './delivery/duplicate-picture.ts'
import { pickedFrame } from './delivery/picked-frame.ts'
import { roster } from './delivery/roster.ts'
import { sameFrameRule } from './delivery/same-frame.ts'
import { setMatch } from './delivery/set-match.ts'
import { variants } from './delivery/variants.ts'
import { RULES } from './index.ts'

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
