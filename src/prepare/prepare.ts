import { join } from 'node:path'
import type { FoundFile } from '../delivery/walk.ts'
import type { Processes } from '../files/own-folder.ts'
import type { Standard } from '../judge/standard.ts'
import { TOOL } from '../judge/tool.ts'
import type { MeasurementGroup } from '../measure/schema/measurements.ts'
import { type Means, measureAll } from '../pool/measure-all.ts'
import { byCodePoint } from '../text/code-points.ts'
import { carriedOver, stepFor } from './existing.ts'
import { judged } from './judging.ts'
import { claim, release } from './ledger/claim.ts'
import { readLedger } from './ledger/ledger-file.ts'
import type { Places } from './ledger/places.ts'
import type { Prepared, PreparedFile, UnmadeFile } from './ledger/prepared.ts'
import { recipeOf } from './ledger/recipe.ts'
import { doubtfulOriginals } from './originals.ts'
import { galleryMedians } from './planning/gallery-medians.ts'
import { asksForCrops } from './planning/order.ts'
import { type PlannedFile, type PreparePlan, planFiles, type Unmade } from './planning/plan.ts'
import { standsFor } from './planning/stands-for.ts'
import type { MeasuredMaster } from './planning/whose.ts'
import { publish, type Ready } from './publish.ts'
import { type Failed, type Worked, workOn } from './work.ts'

/** What is to be prepared, and how. */
export interface Preparing {
  readonly masters: readonly FoundFile[]
  /** The delivery that is to be made anew of them; none unless told. */
  readonly delivered?: readonly FoundFile[]
  readonly standard: Standard
  /** Only these deliverables; those of the spec unless told. */
  readonly deliverables?: readonly string[]
  readonly places: Places
  /** Whether files may be replaced that prepare has not made. */
  readonly replace: boolean
  readonly strict: boolean
  readonly at: Date
  readonly processes: Processes
}

/** What decides names and metadata of a file that is made of a master; and crops, where any are asked for. */
const OF_FILE: readonly MeasurementGroup[] = ['file', 'checksum', 'metadata', 'decode']
const OF_SITTER: readonly MeasurementGroup[] = ['background', 'face', 'head']

/** What would be made of masters; nothing is written. */
export async function planned(
  {
    masters,
    delivered = [],
    standard,
    deliverables,
    at,
  }: Pick<Preparing, 'masters' | 'delivered' | 'standard' | 'deliverables' | 'at'>,
  means: Means,
): Promise<PreparePlan> {
  const { spec, roster, gallery } = standard
  const named = standsFor(masters, spec, roster)
  const originals = masters.filter((_, index) => named[index] && named[index].deliverable !== null)
  const ofFrames: MeasurementGroup[] = delivered.length > 0 ? ['signature'] : []
  const isSitterSought = asksForCrops(spec) || spec.prepare.sharpening !== undefined
  const groups = isSitterSought ? [...OF_FILE, ...OF_SITTER, ...ofFrames] : [...OF_FILE, ...ofFrames]
  return planFiles(await measuredOf(masters, groups, means), {
    ...{ spec, roster, delivered: await measuredOf(delivered, ['face', ...ofFrames], means) },
    doubtful: await doubtfulOriginals(originals, standard, at, means),
    medians: (deliverable) => galleryMedians(gallery, deliverable),
    ...(deliverables && { deliverables }),
  })
}

async function measuredOf(
  files: readonly FoundFile[],
  groups: readonly MeasurementGroup[],
  means: Means,
): Promise<MeasuredMaster[]> {
  if (files.length === 0) return []
  const byFile = new Map((await measureAll(files, groups, means)).map((one) => [one.file, one]))
  return files.flatMap((found) => {
    const measured = byFile.get(found.file)
    return measured ? [{ found, measured }] : []
  })
}

/** What a run has done, and what it was planned from. */
export interface Done {
  readonly plan: PreparePlan
  readonly prepared: Prepared
}

/**
 * Makes files of masters, reads them back, judges them and gives those that pass their place in the delivery, the others in the folder
 * for held-back files.
 * @returns what was done, or the number of the process that is preparing the same folder
 * @throws Error when something can't be written; the signal's reason when it is aborted
 */
export async function prepare(
  preparing: Preparing,
  means: Means,
): Promise<Done | { readonly busy: number } | { readonly unreadable: string }> {
  const { places, processes } = preparing
  const plan = await planned(preparing, means)
  const busy = await claim(places.work, processes)
  if (busy !== null) return { busy }
  try {
    const known = await readLedger(places.ledger)
    if (known === 'unreadable') return { unreadable: places.ledger }
    return { plan, prepared: await carriedOut(plan, known, preparing, means) }
  } finally {
    await release(places.work, processes)
  }
}

async function carriedOut(
  plan: PreparePlan,
  known: Prepared | null,
  preparing: Preparing,
  means: Means,
): Promise<Prepared> {
  const { places, standard, replace, strict, at } = preparing
  const { spec } = standard
  const setting = spec.prepare
  const ready: Ready[] = []
  const refused: Failed[] = []
  const toMake: { readonly file: PlannedFile; readonly replaces: string | null }[] = []
  for (const file of plan.files) {
    const step = await stepFor(file, { known, places, setting, replace })
    if (step.kind === 'keep') ready.push(step.ready)
    else if (step.kind === 'refuse') refused.push({ planned: file, reason: step.reason })
    else toMake.push({ file, replaces: step.replaces })
  }
  const problems = new Map<string, string>()
  for (const files of byMaster(toMake.map(({ file }) => file))) {
    for (const one of await workOn(files, places.work, setting, means.signal)) {
      if ('reason' in one) {
        refused.push(one)
        continue
      }
      if (one.made.problem !== null) problems.set(one.planned.file, one.made.problem)
      const replaces = toMake.find(({ file }) => file === one.planned)?.replaces ?? null
      ready.push({
        at: join(places.work, one.planned.file),
        entry: entryOf(one, recipeOf(one.planned, setting), replaces),
      })
    }
  }
  ready.push(...(await carriedOver(known, ready, places)))
  const found = ready.map(({ at: path, entry: { file } }) => ({ path, file }))
  found.sort((a, b) => byCodePoint(a.file, b.file))
  const judgments = await judged(found, standard, { at, strict }, means)
  const settled = ready.map(({ at: path, entry }): Ready => {
    const own = problems.get(entry.file)
    const { reasons: failed = [], doubts = [] } = judgments.get(entry.file) ?? {}
    const reasons = own === undefined ? failed : [own, ...failed]
    const state = reasons.length === 0 ? 'delivered' : 'held-back'
    return { at: path, entry: { ...entry, reasons, doubts: state === 'delivered' ? doubts : [], state } }
  })
  const prepared: Prepared = {
    ...{ kind: 'prepared delivery', schemaVersion: 1, tool: TOOL },
    spec: { brand: spec.brand, version: spec.version },
    files: settled.map(({ entry }) => entry).sort((a, b) => byCodePoint(a.file, b.file)),
    unmade: [
      ...plan.unmade.map(unmadeOf),
      ...refused.map(({ planned: { master, order }, reason }) =>
        unmadeOf({ master, deliverable: order.deliverable, kind: 'refused', reason }),
      ),
    ],
  }
  await publish(settled, prepared, places)
  return prepared
}

function entryOf(
  { planned: { file, order, master }, made }: Worked,
  recipe: string,
  replaces: string | null,
): PreparedFile {
  const { making, sha256, bytes } = made
  return {
    ...{ file, deliverable: order.deliverable, making, sha256, bytes, recipe, replaces },
    master: { file: master.found.file, sha256: master.measured.sha256 ?? '' },
    ...{ state: 'delivered', reasons: [], made: 'now' },
  }
}

function unmadeOf({ master, deliverable, kind, reason }: Unmade): UnmadeFile {
  return { master: master.found.file, deliverable, kind, reason }
}

function byMaster(files: readonly PlannedFile[]): PlannedFile[][] {
  const groups = new Map<string, PlannedFile[]>()
  for (const file of files) {
    const { path } = file.master.found
    const others = groups.get(path)
    if (others) others.push(file)
    else groups.set(path, [file])
  }
  return [...groups.values()]
}
