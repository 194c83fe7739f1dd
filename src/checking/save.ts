import { notWritten } from '../files/cause.ts'
import { writeWhole } from '../files/write-whole.ts'
import type { Host } from './host.ts'
import { UsageError } from './usage-error.ts'

/** Writes a text file whole, or not at all. @throws UsageError when it can't be written */
export async function save(file: string, text: string, host: Host): Promise<void> {
  await saving(file, host, () => writeWhole(file, text, host))
}

/** Does what writes a file. @throws UsageError when it can't be written */
export async function saving(file: string, { signal }: Host, write: () => Promise<void>): Promise<void> {
  try {
    await write()
  } catch (error) {
    signal.throwIfAborted()
    throw new UsageError(`${file} ${notWritten(error)}`)
  }
}
