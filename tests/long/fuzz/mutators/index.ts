import {
  extremeNumber,
  flipBits,
  flipHeadBits,
  overwrite,
  removeSlice,
  repeatSlice,
  swapSlices,
} from './bytes.ts'
import { moveParts, renamePart, wrongLength } from './containers.ts'
import { spoilDirectory } from './directories.ts'
import { hostileXmp } from './hostile-xmp.ts'
import type { Mutator } from './mutator.ts'
import { polyglot } from './polyglot.ts'
import { spoilProfile } from './profile.ts'
import { absurdSize } from './sizes.ts'
import { truncate } from './truncate.ts'

export const MUTATORS: Readonly<Record<string, Mutator>> = {
  truncate,
  flipBits,
  flipHeadBits,
  overwrite,
  removeSlice,
  repeatSlice,
  swapSlices,
  extremeNumber,
  moveParts,
  wrongLength,
  renamePart,
  absurdSize,
  spoilDirectory,
  spoilProfile,
  hostileXmp,
  polyglot,
}
