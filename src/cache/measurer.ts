import { createHash } from 'node:crypto'
import { arch, platform } from 'node:os'
import { MEASURER_VERSION } from '../measure/schema/measurer-version.ts'
import { measuringCode } from './measuring-code.ts'
import { MEASURING_LIBRARIES } from './measuring-libraries.ts'

/**
 * What tells one measurer from another, hex: its version, its own code and that of the cache, the libraries and the
 * machine's kind. A change of the code that forgets the version finds nothing kept all the same.
 */
export function measurerId(): string {
  const parts = [MEASURER_VERSION, MEASURING_LIBRARIES, platform(), arch(), measuringCode()]
  return createHash('sha256').update(JSON.stringify(parts)).digest('hex')
}
