import { writeFile } from 'node:fs/promises'
import { UsageError } from '../checking/usage-error.ts'
import { notWritten } from '../files/cause.ts'
import { signOffText, whyNotApproved } from '../hand-over/sign-off.ts'
import { SIGN_OFF } from './inbox.ts'
import type { Incoming } from './incoming.ts'

/** What somebody fills in. */
export interface Decision {
  readonly by: string
  readonly note: string
  readonly decision: 'approved' | 'returned'
}

/** Why a delivery can't be approved as it stands, in a sentence; null when it can. */
export function whyNotYet({ stage, answers }: Incoming): string | null {
  if (stage.at !== 'received') return 'It was not received.'
  return answers.includes(null) ? 'Answer the studio first.' : whyNotApproved(stage.received)
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
    const why = decision === 'approved' ? whyNotYet(one) : null
    if (why !== null) throw new UsageError(`It was not signed off. ${why}`)
    const signing = { by, note, decision, answers, at: new Date() }
    const text = signOffText(one.stage.received, signing, standard?.sources ?? null)
    const savedAs = one.own === null ? `${path}${SIGN_OFF}` : null
    if (savedAs !== null) await writeNew(savedAs, text)
    one.signed = { by: by.trim(), decision, text, name, savedAs, isKept: savedAs !== null }
  } catch (error) {
    if (!(error instanceof UsageError)) throw error
    one.complaint = error.message
  }
}

async function writeNew(path: string, text: string): Promise<void> {
  try {
    await writeFile(path, text, { flag: 'wx' })
  } catch (error) {
    throw new UsageError(`It was not signed off: ${path} ${notWritten(error)}`)
  }
}
