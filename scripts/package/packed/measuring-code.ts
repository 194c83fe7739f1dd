import type * as source from '../../../src/cache/measuring-code.ts'

/** Put in by scripts/package: what the built code gives. */
declare const MEASURING_CODE: string

export const measuringCode: typeof source.measuringCode = () => MEASURING_CODE
