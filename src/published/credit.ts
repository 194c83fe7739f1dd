import type { Metadata } from '../measure/schema/metadata.ts'
import { listed } from '../text/quantity.ts'
import { quoted } from '../text/quoted.ts'

/** Which credit of the approved file the shown one has lost or has otherwise, in a sentence; null when it has all of it. */
export function creditProblem(
  shown: Metadata | null | undefined,
  approved: Metadata | null | undefined,
): string | null {
  const lost: string[] = []
  const changed: string[] = []
  const compare = (what: string, is: string, was: string) => {
    if (was === '' || is === was) return
    if (is === '') lost.push(`${what} ${quoted(was)}`)
    else changed.push(`${what} ${quoted(is)} instead of ${quoted(was)}`)
  }
  compare('the creator', shown?.creator.join('; ') ?? '', approved?.creator.join('; ') ?? '')
  compare('the copyright notice', shown?.copyright ?? '', approved?.copyright ?? '')
  if (lost.length + changed.length === 0) return null
  const told = [
    ...(lost.length > 0 ? [`lacks ${listed(lost)}`] : []),
    ...(changed.length > 0 ? [`has ${listed(changed)}`] : []),
  ]
  return `Its credit is not that of the approved file: it ${told.join(', and ')}. Have the website keep the metadata of pictures.`
}
