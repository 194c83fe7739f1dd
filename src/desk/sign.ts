import { writeFile } from 'node:fs/promises'
import { UsageError } from '../checking/usage-error.ts'
import { signOffText } from '../hand-over/sign-off.ts'
import { SIGN_OFF } from './inbox.ts'
import type { Incoming } from './incoming.ts'

/** What somebody fills in. */
export interface Decision {
  readonly by: string
  readonly note: string
  readonly decision: 'approved' | 'returned'
}

/**
 * Signs a delivery. Beside one that lies in a folder of the user's, the file is saved; of any other it is offered. Why it
 * was not signed stands in the delivery.
 */
export async function sign(one: Incoming, { by, note, decision }: Decision): Promise<void> {
  one.complaint = null
  if (one.stage.at !== 'received' || one.signed) return
  const { answers, standard, path } = one
  const name = `${one.name}${SIGN_OFF}`
  try {
    const signing = { by, note, decision, answers, at: new Date() }
    const text = signOffText(one.stage.received, signing, standard?.sources ?? null)
    const savedAs = one.own === null ? `${path}${SIGN_OFF}` : null
    if (savedAs !== null) await writeNew(savedAs, text)
    one.signed = { by: by.trim(), decision, text, name, savedAs }
  } catch (error) {
    if (!(error instanceof UsageError)) throw error
    one.complaint = error.message
  }
}

async function writeNew(path: string, text: string): Promise<void> {
  try {
    await writeFile(path, text, { flag: 'wx' })
  } catch (error) {
    const why = error instanceof Error && 'code' in error ? error.code : error
    throw new UsageError(
      why === 'EEXIST'
        ? `It was not signed off: ${path} is there already. Move it away first.`
        : `It was not signed off: ${path} could not be written (${why}). Free some space, or see that you may write there.`,
    )
  }
}
