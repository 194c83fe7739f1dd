import type { Sitter } from './sitter.ts'
import { STAFF_A_TO_F } from './staff-a-to-f.ts'
import { STAFF_G_TO_L } from './staff-g-to-l.ts'
import { STAFF_M_TO_R } from './staff-m-to-r.ts'
import { STAFF_S_TO_Z } from './staff-s-to-z.ts'

export type { Sitter } from './sitter.ts'

/**
 * The invented staff of the Osprey Lane Veterinary Group. All ten skin tones occur, and hair, headwear, beards and
 * spectacles are mixed across them.
 */
export const SITTERS: readonly Sitter[] = [...STAFF_A_TO_F, ...STAFF_G_TO_L, ...STAFF_M_TO_R, ...STAFF_S_TO_Z]
