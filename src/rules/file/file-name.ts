import { Type } from '@sinclair/typebox'
import type { NameProblem, NameReading } from '../../naming/name-reading.ts'
import { listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import { defineRule, type Subject } from '../contract/rule.ts'
import { renameFix } from '../judging/rename-fix.ts'
import { folderFindings, isOfFolder } from './folder-name.ts'

export const fileName = defineRule({
  id: 'file-name',
  severity: 'label',
  dependsOn: 'export',
  text: {
    title: 'The file is named as the spec asks',
    measures:
      "The path is compared with the spec's naming pattern, field by field. Unless switched off, the name must also work on every system: Unicode in NFC, no character that can't be seen, nothing that Windows refuses, no two names that differ only in case or in Unicode form. A folder with a wrong name is one finding over all its files.",
    why: 'Upload systems find the person and the deliverable by the name. A name that some system refuses, or takes for another one, loses a portrait.',
    fix: 'Rename the file.',
    example:
      'naming:\n  pattern: "{deliverable}/{family}-{given}_{staff-id}.jpg"\nfile-name: { portable: true }',
  },
  options: Type.Object(
    {
      portable: Type.Optional(
        Type.Boolean({
          default: true,
          description:
            'Also ask for names that work on every system: NFC, valid on Windows, no two that differ only in case.',
        }),
      ),
    },
    { additionalProperties: false, description: 'Runs when the spec has a naming pattern; see `naming`.' },
  ),
  // Of two files that claim one name, the same bytes are a copy.
  needs: ['checksum'],
  judge(subject, { portable = true }) {
    const { name, rename, isTogether = false } = subject
    const problems = asked(name, portable)
    const own = problems.filter((problem) => !(isTogether && isOfFolder(problem)))
    const finding = { measured: name.path, expected: expectedName(name, portable) }
    const version = versionTold(subject)
    if (own.length === 0 && version === null) {
      if (problems.length > 0) return { verdict: 'skip', ...finding, reason: FOLDER_TOLD }
      return { verdict: 'pass', ...finding, reason: `The name ${quoted(name.path)} is right.` }
    }
    const sentences = [
      ...own.map((problem) => sentencesFor(problem, name)),
      ...(version === null ? [] : [version]),
    ]
    return {
      verdict: 'fail',
      ...finding,
      reason: sentences.map(({ reason }) => reason).join(' '),
      fix: rename ? renameFix(rename) : [...new Set(sentences.map(({ fix }) => fix))].join(' '),
      ...(rename && { renames: [rename] }),
    }
  },
  together(files) {
    const wrong = files.flatMap(({ subject, options: { portable = true } }) => {
      const problems = asked(subject.name, portable).filter(isOfFolder)
      return problems.length > 0 ? [{ subject, problems }] : []
    })
    return folderFindings(
      wrong,
      files.map(({ subject }) => subject),
    )
  },
})

const FOLDER_TOLD = 'The name of its folder is wrong, which is reported once for all files in it.'

function asked({ problems }: NameReading, portable: boolean): NameProblem[] {
  return problems.filter((problem) => portable || !isPortability(problem))
}

/** For a name that is another's but for a version at its end, such as _final; null where a field's form tells it. */
function versionTold({ name, resemblance }: Subject): Sentences | null {
  if (resemblance?.among !== 'names') return null
  const told = name.problems.flatMap((problem) => (problem.kind === 'field' ? [problem.field] : []))
  const fields = Object.entries(resemblance.fields).filter(([field]) => !told.includes(field))
  if (fields.length === 0) return null
  return {
    reason: `${listed(fields.map(([, value]) => quoted(value)))} in the name ends in a version, which the other files of the same person don't have.`,
    fix: 'Take the version out of the name.',
  }
}

function isPortability({ kind }: NameProblem): boolean {
  return kind === 'not-nfc' || kind === 'unseen' || kind === 'windows' || kind === 'collision'
}

function expectedName({ pattern }: NameReading, portable: boolean): string {
  if (pattern !== null) return pattern
  return portable ? 'a name that works on every system' : 'any name'
}

interface Sentences {
  readonly reason: string
  readonly fix: string
}

function sentencesFor(problem: NameProblem, name: NameReading): Sentences {
  const renamed = `Rename the file to match the pattern ${quoted(name.pattern ?? '')}.`
  switch (problem.kind) {
    case 'no-match':
      return { reason: noMatch(problem.at, problem.wanted, problem.found, name), fix: renamed }
    case 'extension':
      return {
        reason: `The name ${problem.found === '' ? 'has no extension' : `ends in ${quoted(problem.found)}`}; it should end in ${quoted(problem.wanted)}.`,
        fix: `Rename it to end in ${quoted(problem.wanted)} if the content is of that format, and export it again if not.`,
      }
    case 'copy':
      return {
        reason: `The name ends in ${quoted(problem.mark)}, as the names of copies do.`,
        fix: `Take ${quoted(problem.mark)} out of the name, or delete the copy.`,
      }
    case 'letter-case':
      return {
        reason: `${quoted(problem.found)} in the name should be ${quoted(problem.wanted)}: upper and lower case matter.`,
        fix: `Rename it to ${quoted(problem.wanted)}.`,
      }
    case 'field':
      return {
        reason: `The field ${problem.field} of the name must be ${problem.wanted}; found ${quoted(problem.found)}.`,
        fix: `Correct ${problem.field} in the file name.`,
      }
    case 'deliverable':
      return {
        reason: `${quoted(problem.found)} is not a deliverable of the spec.`,
        fix: `Use the name of one of its deliverables${problem.nearest === null ? '.' : `; did you mean ${quoted(problem.nearest)}?`}`,
      }
    default:
      return portabilitySentences(problem, name)
  }
}

function noMatch(at: number, wanted: string, found: string, { path, pattern }: NameReading): string {
  const place = Array.from(path.slice(0, at)).length + 1
  const should = wanted === '' ? 'it should end' : `it should have ${quoted(wanted)}`
  const is = found === '' ? 'it ends' : `it has ${quoted(found)}`
  return `The name ${quoted(path)} does not fit the pattern ${quoted(pattern ?? '')}: at character ${place} ${should}, but ${is}.`
}

/** Kinds of problems on which systems differ. */
type Portability = Extract<NameProblem, { kind: 'not-nfc' | 'not-utf8' | 'unseen' | 'windows' | 'collision' }>

function portabilitySentences(problem: Portability, { path }: NameReading): Sentences {
  switch (problem.kind) {
    case 'not-nfc':
      return {
        reason: `The accents in the name ${quoted(path)} are stored separately from their letters (not in Unicode NFC), so systems may treat it as a different name from the one they show.`,
        fix: `Rename the file to ${quoted(problem.composed)} in NFC: retype the name instead of copying it.`,
      }
    case 'not-utf8':
      return {
        reason: `The name ${quoted(path)} is not stored as UTF-8, so it can't be read with certainty.`,
        fix: 'Rename the file on the system that wrote it, or unpack the archive again with UTF-8 names.',
      }
    case 'unseen':
      return {
        reason: `The name contains a character that can't be seen (${problem.character}), so it looks like another name.`,
        fix: 'Rename the file: retype the name instead of copying it.',
      }
    case 'windows':
      return {
        reason: `Windows refuses the name: ${quoted(problem.part)} ${problem.why}.`,
        fix: `Rename ${quoted(problem.part)} so that every system can store it.`,
      }
    case 'collision':
      return {
        reason: `The name differs from ${quoted(problem.with)} only in ${problem.by === 'case' ? 'upper and lower case' : 'how accents are stored (Unicode NFC or NFD)'}; on many systems one file overwrites the other.`,
        fix: 'Give the two files names that differ in letters or digits, or remove the duplicate.',
      }
  }
}
