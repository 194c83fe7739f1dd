import type { Case } from './case.ts'
import { PEOPLE_CASES } from './people-cases.ts'
import { PICTURE_CASES } from './picture-cases.ts'
import { SAVING_CASES } from './saving-cases.ts'

/** What each fault is to be told by. */
export const CASES: readonly Case[] = [...PEOPLE_CASES, ...PICTURE_CASES, ...SAVING_CASES]
