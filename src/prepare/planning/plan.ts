import type { Spec } from '../../brand-spec/spec.ts'
import { pathReader } from '../../delivery/identify.ts'
import { mergedName, portabilityProblems } from '../../delivery/portability.ts'
import type { Aim } from '../../framing/aim.ts'
import type { PathReader } from '../../naming/read-path.ts'
import { writtenNames } from '../../naming/target-name.ts'
import { isPlain, spelledIn } from '../../naming/transliterate.ts'
import type { Roster } from '../../people/roster.ts'
import { FORMATS } from '../../rules/judging/format-names.ts'
import { listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { Labels } from '../metadata/labels.ts'
import { cropFor, type PlannedCrop } from './crop-for.ts'
import { labelsFor } from './labels.ts'
import { type Order, orderOf } from './order.ts'
import { type MeasuredMaster, whoseAre } from './whose.ts'

/** A file that can be made: from what, where, and how. */
export interface PlannedFile extends PlannedCrop {
  readonly master: MeasuredMaster
  readonly order: Order
  /** Relative to the output folder, with `/`. */
  readonly file: string
  readonly labels: Labels
}

/** A master, or one deliverable of it, of which no file is made, and why. */
export interface Unmade {
  readonly master: MeasuredMaster
  /** Null where it concerns the master as a whole. */
  readonly deliverable: string | null
  /** `question`: only a person can say. `refused`: it can't be done. */
  readonly kind: 'question' | 'refused'
  readonly reason: string
}

export interface PreparePlan {
  readonly files: readonly PlannedFile[]
  readonly unmade: readonly Unmade[]
}

/** What files are to be like. */
export interface PlanFacts {
  readonly spec: Spec
  readonly roster: Roster | null
  /** The delivery that is to be made anew, whose names tell of masters of the same frames. */
  readonly delivered?: readonly MeasuredMaster[]
  /** Why it is in doubt whom a delivered file shows that is its own master, by its path. */
  readonly doubtful?: ReadonlyMap<string, string>
  /** The deliverables to be made; those of the spec unless told. */
  readonly deliverables?: readonly string[]
  /** Medians of published portraits, by deliverable (or null). */
  readonly medians: (deliverable: string | null) => Aim
}

/** What is to be made of masters: each deliverable of each. Pure; nothing is read or written. */
export function planFiles(masters: readonly MeasuredMaster[], facts: PlanFacts): PreparePlan {
  const { spec, roster } = facts
  const ordered = Object.keys(spec.deliverables)
  const wanted = facts.deliverables ?? ordered
  const orders = (ordered.length === 0 ? [null] : wanted).map((name) => orderOf(name, spec))
  const reader = spec.naming && pathReader(spec.naming, ordered)
  const whose = whoseAre(masters, spec, roster, facts.delivered)
  const all = masters.flatMap((master, index): (PlannedFile | Unmade)[] => {
    const answer = whose[index]
    const whole = { master, deliverable: null }
    if (!answer || 'question' in answer)
      return [{ ...whole, kind: 'question', reason: answer?.question ?? 'Who is in it?' }]
    const doubt = answer.deliverable === null ? undefined : facts.doubtful?.get(master.found.file)
    if (doubt !== undefined) return [{ ...whole, kind: 'question', reason: doubt }]
    if (master.measured.fault)
      return [{ ...whole, kind: 'refused', reason: 'It could not be read as a picture.' }]
    const own = orders.filter(
      ({ deliverable }) => answer.deliverable === null || deliverable === answer.deliverable,
    )
    return own.map((order) => {
      const refused = (reason: string): Unmade => ({
        ...{ master, deliverable: order.deliverable, kind: 'refused', reason },
      })
      const file = nameOf(order, answer.fields, reader)
      if ('reason' in file) return refused(file.reason)
      const crop = cropFor(
        master.measured,
        order,
        facts.medians(order.deliverable),
        spec.prepare.level?.max ?? 0,
      )
      if ('reason' in crop) return refused(crop.reason)
      const unwritten = crop.isLossless ? null : unwrittenOf(order)
      if (unwritten !== null) return refused(unwritten)
      const labels = labelsFor({
        metadata: master.measured.metadata ?? null,
        file: master.found.file,
        person: answer.fields,
        saving: order.saving,
        templates: spec.prepare.metadata,
        isPicked: answer.pick !== null,
      })
      return { ...crop, master, order, file: file.name, labels }
    })
  })
  return withoutClashes(all)
}

function nameOf(
  { deliverable, extension, format }: Order,
  fields: Readonly<Record<string, string>>,
  reader: PathReader | null,
): { readonly name: string } | { readonly reason: string } {
  if (!reader)
    return { reason: 'The spec has no naming pattern, so the file has no name. Add "naming:" to it.' }
  const { text } = reader.pattern
  if (extension === null)
    return { reason: `Names read ${quoted(text)}, which is of no format that the spec allows. Correct one.` }
  const known = { person: null, extensions: FORMATS[format].extensions }
  const given = { ...fields, ext: extension, ...(deliverable !== null && { deliverable }) }
  const foreign = foreignField(given, reader)
  if (foreign !== null)
    return {
      reason: `No spelling of ${quoted(foreign)} in the letters A to Z is known, and names are written so. Give it in the roster.`,
    }
  const names = writtenNames(given, known, reader)
  if (!names) {
    const missing = missingFields(given, reader)
    return missing.length > 0
      ? {
          reason: `Nothing tells ${missing.join(', ')}, which names read ${quoted(text)} need. Add the column to the roster.`,
        }
      : { reason: `No name that reads ${quoted(text)} can be made of what is known. Correct the roster.` }
  }
  const name = names.join('/').normalize('NFC')
  if (portabilityProblems(name).length > 0)
    return { reason: `Its name would be ${quoted(name)}, which some systems refuse. Correct the roster.` }
  return { name }
}

/** Why files of an order can't be written at all, from whatever master; null when they can. */
function unwrittenOf({ format, subsampling, saving }: Order): string | null {
  if (format !== 'jpeg' || subsampling !== null || saving.colorSpace === 'gray') return null
  return `The spec asks for JPEGs with subsampling ${listed(saving.subsampling ?? [], 'or')}, which prepare does not write. Allow 4:4:4 or 4:2:0 in "compression", or export these by hand.`
}

/** A value that the names' letters can't spell; null when there is none. */
function foreignField(given: Readonly<Record<string, string>>, { pattern }: PathReader): string | null {
  if (!pattern.transliterate) return null
  const values = pattern.segments
    .flat()
    .flatMap((piece) => ('field' in piece ? (given[piece.field] ?? []) : []))
  return values.find((value) => !isPlain(spelledIn(pattern, value))) ?? null
}

function missingFields(given: Readonly<Record<string, string>>, { pattern }: PathReader): string[] {
  return pattern.segments
    .flat()
    .flatMap((piece) => ('field' in piece && !given[piece.field] ? [piece.field] : []))
}

/** Two files that some system takes for one would overwrite each other: neither is made. */
function withoutClashes(all: readonly (PlannedFile | Unmade)[]): PreparePlan {
  const files = all.filter((one) => 'file' in one)
  const counts = new Map<string, number>()
  for (const { file } of files) counts.set(mergedName(file), (counts.get(mergedName(file)) ?? 0) + 1)
  const isAlone = ({ file }: PlannedFile) => counts.get(mergedName(file)) === 1
  return {
    files: files.filter(isAlone),
    unmade: all.flatMap((one): Unmade[] => {
      if (!('file' in one)) return [one]
      if (isAlone(one)) return []
      const { master, order, file } = one
      const reason = `Another master would get the name ${quoted(file)} too. Add a field to the naming pattern that tells them apart.`
      return [{ master, deliverable: order.deliverable, kind: 'question', reason }]
    }),
  }
}
