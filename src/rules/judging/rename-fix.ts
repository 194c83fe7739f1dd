import type { Rename } from '../../naming/rename.ts'
import { listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import { formatName, formatOfExtension } from './format-names.ts'

/** Most renames told in one fix. @choice more are hard to read, no source; the list of renames has them all. */
const MOST_TOLD = 6

/** The same for several files, each by its name; the first {@link MOST_TOLD} of them. */
export function renamesFix(renames: readonly Rename[]): string {
  if (renames.length === 1) return renames.map(renameFix).join('')
  const told = renames.slice(0, MOST_TOLD).map((rename) => `${quoted(rename.from)}: ${renameFix(rename)}`)
  const more = renames.length - told.length
  return [...told, ...(more > 0 ? [`And ${more} more in the list of renames.`] : [])].join(' ')
}

/** What to do about one file's wrong name, in a sentence that names the exact name. */
export function renameFix(rename: Rename): string {
  if ('to' in rename) return `Rename it to ${quoted(rename.to)}.`
  if ('sameAs' in rename) {
    const how = rename.by === 'bytes' ? 'is identical to' : 'shows the same picture as'
    return `It ${how} ${quoted(rename.sameAs)}: delete it.`
  }
  const { wanted } = rename
  if (rename.refused === 'format')
    return `Export it again as ${formatName(formatOfExtension(wanted.slice(wanted.lastIndexOf('.') + 1)))}, under the name ${quoted(wanted)}.`
  const others = listed(rename.others.map(quoted))
  const [claim, are] =
    rename.others.length === 1 ? ['claims', 'is another picture'] : ['claim', 'are other pictures']
  return `Its name should be ${quoted(wanted)}, which ${others} ${claim} too and ${are}: decide which one is right, and remove the others.`
}
