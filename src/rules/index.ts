import { headroom } from './headroom.ts'
import type { Rule } from './rule.ts'

/** Every rule on a single file, in the order in which they are shown. */
export const RULES: readonly Rule[] = [headroom]
