import type { AnyRule, DeliveryRule } from './delivery-rule.ts'
import { RULES } from './index.ts'
import { roster } from './roster.ts'
import { variants } from './variants.ts'

/** Every rule over the whole delivery, in the order in which they are shown: who, what, and how it hangs together. */
export const DELIVERY_RULES: readonly DeliveryRule[] = [roster, variants]

/** Both kinds, those on single files first. */
export const ALL_RULES: readonly AnyRule[] = [...RULES, ...DELIVERY_RULES]
