import { readdir } from 'node:fs/promises'
import { join, relative, resolve, sep } from 'node:path'
import { loadSpec } from '../brand-spec/load.ts'
import type { Spec } from '../brand-spec/spec.ts'
import type { Check } from '../checking/check-delivery.ts'
import { findPictures } from '../checking/find-pictures.ts'
import type { Host } from '../checking/host.ts'
import { namesOf } from '../checking/sources.ts'
import type { ReadStandard } from '../checking/standard.ts'
import type { Found, FoundFile } from '../delivery/walk.ts'
import { readSourceText, type SourceText } from '../files/source-text.ts'
import type { Report } from '../judge/report.ts'
import type { Standard } from '../judge/standard.ts'
import { findPeople } from '../people/people.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import { readWaivers } from '../waivers/read-waivers.ts'
import { type Answers, agreedWaivers } from './answers.ts'
import { checkBag, whyNotAccepted } from './check-bag.ts'
import type { Opened } from './opened.ts'
import { questionsOf } from './questions.ts'
import type { Receipt } from './receipt.ts'
import { readSigners } from './signers.ts'
import { specDifferences } from './spec-difference.ts'
import { cameAlong } from './tags.ts'

export interface Receiving {
  /** The client's own; null when there is none, and nothing is judged. */
  readonly standard: ReadStandard | null
  readonly signers: string | null
  readonly strict: boolean
  readonly at: Date
  /** Measures and judges. */
  readonly judge: (check: Check) => Promise<Report>
}

export interface Received {
  readonly receipt: Receipt
  /** Why it is not taken as it is, in a sentence; null when it is. */
  readonly refused: string | null
  /** What was judged; null when nothing was. */
  readonly found: Found | null
}

/**
 * Verifies what was sent, and judges it by the client's own standard when it is whole.
 * @returns null when there are no portraits, which is said
 */
export async function receiveDelivery(
  { name, bag: folder, delivery, beside }: Opened,
  receiving: Receiving,
  host: Host,
): Promise<Received | null> {
  const { standard: own, at } = receiving
  const listed = receiving.signers
  const signers = listed === null ? null : await readSigners(resolve(host.cwd, listed), listed)
  const bag = folder === null ? null : await checkBag({ folder, beside }, signers, host)
  const refused = whyNotAccepted(bag, signers !== null)
  const receipt: Receipt = {
    kind: 'portrait delivery receipt',
    from: name,
    bag,
    differences: null,
    questions: [],
    report: null,
  }
  if (refused !== null || own === null) return { receipt, refused, found: null }
  const found = await findPictures([delivery], host, [name])
  if (!found) return null
  const { standard } = own
  const report = await judged(found, standard, receiving)
  const theirs = folder === null ? null : await theirStandard(folder)
  const differences = theirs?.spec ? specDifferences(standard.spec, theirs.spec) : null
  const questions = theirs?.waivers
    ? questionsFor({ report, files: found.files, standard, waivers: theirs.waivers, at })
    : []
  return { receipt: { ...receipt, differences, questions, report }, refused, found }
}

/** What was received, judged with those of the studio's exceptions that the client agrees to. */
export async function withAnswers(
  { receipt, refused, found }: Received,
  answers: Answers,
  receiving: Receiving,
): Promise<Received> {
  const { standard: own } = receiving
  if (own === null || found === null) return { receipt, refused, found }
  const waivers = [...own.standard.waivers, ...agreedWaivers(receipt.questions, answers)]
  const report = await judged(found, { ...own.standard, waivers }, receiving)
  return { receipt: { ...receipt, report }, refused, found }
}

function judged(found: Found, standard: Standard, { at, strict, judge }: Receiving): Promise<Report> {
  return judge({ found, standard, at, part: null, only: null, strict })
}

/** What the studio judged by; null for what did not come along or can't be read here. */
async function theirStandard(bag: string): Promise<{ spec: Spec | null; waivers: SourceText | null }> {
  const entries = await readdir(bag, { recursive: true, withFileTypes: true })
  const files = entries
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => relative(bag, join(parentPath, name)).split(sep).join('/'))
  const { specs, waivers } = await cameAlong(files, async (file) => {
    const read = await readSourceText(join(bag, file))
    return 'text' in read ? read.text : null
  })
  const [spec, ...extended] = specs
  const loaded = spec ? loadSpec(spec.text, spec.file, ALL_RULES, extended) : null
  return { spec: loaded && 'spec' in loaded ? loaded.spec : null, waivers }
}

interface Asked {
  readonly report: Report
  readonly files: readonly FoundFile[]
  readonly standard: Standard
  readonly waivers: SourceText
  readonly at: Date
}

function questionsFor({ report, files, standard, waivers: source, at }: Asked): Receipt['questions'] {
  const read = readWaivers(
    source,
    ALL_RULES.map(({ id }) => id),
  )
  if ('problems' in read) return []
  const nameOf = namesOf(files, standard)
  const names = files.map(({ file }) => nameOf(file))
  const { people } = findPeople(names, standard.spec.naming, standard.roster)
  return questionsOf(report, read.waivers, people, at.toISOString().slice(0, 10))
}
