import type { Random } from '../chance.ts'

/** Makes of a well-formed picture one that is spoiled in some way. Pure: the same chance gives the same file. */
export type Mutator = (content: Buffer, random: Random) => Buffer
