import { readFile } from 'node:fs/promises'
import { Ajv } from 'ajv'
import { replaceWhole } from '../../files/replace-whole.ts'
import { Prepared } from './prepared.ts'

const isPrepared = new Ajv().compile<Prepared>(Prepared)

/** What an earlier run has done; null when there was none, `unreadable` when something else is there. */
export async function readLedger(path: string): Promise<Prepared | null | 'unreadable'> {
  let text: string
  try {
    text = await readFile(path, 'utf8')
  } catch (error) {
    const isGone = error instanceof Error && 'code' in error && error.code === 'ENOENT'
    return isGone ? null : 'unreadable'
  }
  try {
    const data: unknown = JSON.parse(text)
    return isPrepared(data) ? data : 'unreadable'
  } catch {
    return 'unreadable'
  }
}

/** @throws Error when it can't be written; what was there before is then still there */
export async function writeLedger(path: string, prepared: Prepared): Promise<void> {
  await replaceWhole(path, `${JSON.stringify(prepared, null, 2)}\n`, { flush: true })
}
