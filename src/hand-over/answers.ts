import type { Waiver } from '../waivers/waiver.ts'
import type { Question } from './receipt.ts'

/** For each question in its order whether the client agrees; null where nothing was answered yet. */
export type Answers = readonly (boolean | null)[]

/**
 * The exceptions that were agreed to, each for just what was asked. Of two questions about the same rule, files and people
 * both must be agreed to, since an exception can't tell them apart.
 */
export function agreedWaivers(questions: readonly Question[], answers: Answers): Waiver[] {
  const open = new Set(questions.flatMap((question, i) => (answers[i] === true ? [] : [keyOf(question)])))
  return questions
    .filter((question) => !open.has(keyOf(question)))
    .map(({ rule, files, people, reason, approvedBy, until }) => ({
      ...{ line: 1, rule, files, people: files.length > 0 ? [] : people, reason, approvedBy, until },
      isExact: true,
    }))
}

function keyOf({ rule, files, people }: Question): string {
  return JSON.stringify([rule, files, people])
}
