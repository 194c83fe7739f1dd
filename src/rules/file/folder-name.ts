import type { NameProblem } from '../../naming/name-reading.ts'
import { count } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { DeliveryFinding } from '../contract/delivery-outcome.ts'
import type { Subject } from '../contract/rule.ts'
import { renamesFix } from '../judging/rename-fix.ts'

/** A problem of a folder's name. */
export type FolderProblem = NameProblem & { readonly folder: string }

export function isOfFolder(problem: NameProblem): problem is FolderProblem {
  return 'folder' in problem && problem.folder !== undefined
}

/** A file in folders with wrong names, and what is wrong with those. */
export interface InWrongFolder {
  readonly subject: Subject
  readonly problems: readonly FolderProblem[]
}

/**
 * A finding for each folder with a wrong name, over all its files.
 * @param all files of the delivery, those in right folders too
 */
export function folderFindings(files: readonly InWrongFolder[], all: readonly Subject[]): DeliveryFinding[] {
  const byFolder = new Map<string, InWrongFolder[]>()
  for (const file of files)
    for (const folder of new Set(file.problems.map((problem) => problem.folder)))
      byFolder.set(folder, [...(byFolder.get(folder) ?? []), file])
  const folders = new Set(all.flatMap(({ name }) => foldersOf(name.path)))
  return [...byFolder].map(([folder, inside]) => finding(folder, inside, folders))
}

function finding(
  folder: string,
  inside: readonly InWrongFolder[],
  folders: ReadonlySet<string>,
): DeliveryFinding {
  const problems = inside[0]?.problems.filter((problem) => problem.folder === folder) ?? []
  const renames = inside.flatMap(({ subject }) => subject.rename ?? [])
  const unsettled = renames.filter((rename) => !('to' in rename))
  const target = targetOf(folder, inside)
  const rename =
    target !== null &&
    (folders.has(target)
      ? `Move its files into ${quoted(target)}.`
      : `Rename the folder to ${quoted(target)}.`)
  const fixes = rename ? [rename] : problems.map(fixOf)
  return {
    people: [],
    files: inside.map(({ subject }) => subject.name.path),
    verdict: 'fail',
    measured: folder,
    expected: inside[0]?.subject.name.pattern ?? 'a name that works on every system',
    reason: `${problems.map((problem) => reasonOf(problem, inside[0]?.subject.name.pattern ?? '')).join(' ')} ${count(inside.length, 'file lies', 'files lie')} in it.`,
    fix: [...new Set(fixes), ...(unsettled.length > 0 ? [renamesFix(unsettled)] : [])].join(' '),
    ...(renames.length > 0 && { renames }),
  }
}

/** The folder that all files are to go to, by their exact names; null when that is not one, or not known of any. */
function targetOf(folder: string, inside: readonly InWrongFolder[]): string | null {
  const depth = folder.split('/').length
  const moves = inside.flatMap(({ subject: { rename } }) => (rename && 'to' in rename ? [rename] : []))
  const targets = new Set(moves.map(({ to }) => to.split('/').slice(0, depth).join('/')))
  const [target, ...others] = targets
  // A folder above the delivery can't be renamed from here.
  const isOwn = moves.every(({ from }) => from.normalize('NFC').startsWith(`${folder.normalize('NFC')}/`))
  return target !== undefined && others.length === 0 && isOwn && target !== folder ? target : null
}

function foldersOf(path: string): string[] {
  const parts = path.normalize('NFC').split('/')
  return parts.slice(1).map((_, index) => parts.slice(0, index + 1).join('/'))
}

function reasonOf(problem: FolderProblem, pattern: string): string {
  const folder = quoted(problem.folder)
  switch (problem.kind) {
    case 'deliverable':
      return `The folder ${folder} is not named after a deliverable of the spec.`
    case 'letter-case':
      return `In the name of the folder ${folder}, ${quoted(problem.found)} should be ${quoted(problem.wanted)}: upper and lower case matter.`
    case 'field':
      return `The field ${problem.field} in the name of the folder ${folder} must be ${problem.wanted}; found ${quoted(problem.found)}.`
    case 'windows':
      return `Windows refuses the folder ${folder}: ${quoted(problem.part)} ${problem.why}.`
    case 'not-nfc':
      return `The accents in the name of the folder ${folder} are stored separately from their letters (not in Unicode NFC), so systems may treat it as a different name from the one they show.`
    case 'unseen':
      return `The name of the folder ${folder} contains a character that can't be seen (${problem.character}), so it looks like another name.`
    default:
      return `The folder ${folder} does not fit the pattern ${quoted(pattern)}.`
  }
}

function fixOf(problem: FolderProblem): string {
  switch (problem.kind) {
    case 'deliverable':
      return problem.nearest === null
        ? 'Give the folder the name of the deliverable that its files are for.'
        : `Give the folder the name of the deliverable that its files are for; did you mean ${quoted(problem.nearest)}?`
    case 'field':
      return `Correct ${problem.field} in the name of the folder.`
    case 'letter-case':
      return `Rename ${quoted(problem.found)} to ${quoted(problem.wanted)}.`
    case 'windows':
      return 'Rename the folder so that every system can store it.'
    case 'not-nfc':
      return `Rename the folder to ${quoted(problem.composed)} in NFC: retype the name instead of copying it.`
    case 'unseen':
      return 'Rename the folder: retype the name instead of copying it.'
    default:
      return 'Rename the folder to match the pattern.'
  }
}
