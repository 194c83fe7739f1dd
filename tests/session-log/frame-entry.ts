import { unmeasured } from '../../src/measure/schema/unmeasured.ts'
import type { FrameEntry } from '../../src/session-log/entry.ts'

/** An entry of a frame whose digest is what it is called. */
export function frameEntry(digest: string, file = `${digest}.JPG`): FrameEntry {
  const measured = unmeasured(file, '')
  const seen = { digest, file, bytes: 1, modifiedMs: 1 }
  return { kind: 'frame', ...seen, at: '2026-05-12T09:00:00.000Z', measured, fullSize: null }
}
