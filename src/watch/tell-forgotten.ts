import { EXIT } from '../checking/host.ts'
import { UsageError } from '../checking/usage-error.ts'
import { forTerminal } from '../report/safe.ts'
import { didYouMean } from '../text/nearest.ts'
import { count } from '../text/quantity.ts'
import { forgetSitter, sittersKnown } from './forget.ts'
import type { Place } from './place.ts'

/** Takes somebody out of a session and says what is left to do. @throws UsageError when nobody is called so */
export async function tellForgotten(
  sitter: string,
  { folder, sessionFolder, read: { standard }, roster, host }: Place,
): Promise<number> {
  const known = await sittersKnown(sessionFolder, standard)
  const meant = known.find(({ label, name }) => label === sitter || name === sitter)
  if (!meant) {
    const labels = known.map(({ label }) => label)
    throw new UsageError(
      `There is nobody called ${sitter}${didYouMean(sitter, labels)} Name them as the page does.`,
    )
  }
  const { frames, files, picks } = await forgetSitter(meant.label, sessionFolder, roster)
  const say = (sentence: string) => host.stdout.write(`${forTerminal(sentence)}\n`)
  say(
    `${meant.label} is out of the session: ${count(frames, 'frame')}, their numbers and pictures, and the pick.`,
  )
  if (picks && 'problem' in picks) say(picks.problem)
  if (files.length > 0) {
    say(`Their own files were left as they are; delete them yourself, and copies elsewhere, in ${folder}:`)
    for (const file of files) say(`  ${file}`)
  }
  return EXIT.fine
}
