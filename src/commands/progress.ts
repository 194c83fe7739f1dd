import type { Progress } from '../measure/measure.ts'
import type { Host } from './host.ts'

export interface ProgressLine {
  show(progress: Progress): void
  clear(): void
}

/** A line on standard error that is overwritten as the work goes on; nothing at all when that is no terminal. */
export function progressLine({ stderr }: Host): ProgressLine {
  if (!stderr.isTTY) return { show: () => {}, clear: () => {} }
  return {
    show: ({ done, total }) => stderr.write(`\r\u001b[2KMeasured ${done} of ${total} portraits`),
    clear: () => stderr.write('\r\u001b[2K'),
  }
}
