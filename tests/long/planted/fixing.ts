import { execFile } from 'node:child_process'
import { mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { promisify } from 'node:util'
import sharp, { type Sharp } from 'sharp'
import type { CropTold } from '../../../src/framing/crop-box.ts'
import { type FileReport, findingsByFile, type Report } from '../../../src/judge/report.ts'
import type { ExportSettings } from '../../../src/rules/contract/export-settings.ts'
import type { Outcome } from '../../../src/rules/contract/outcome.ts'
import { type Labels, type Saving, saved } from './exporting.ts'
import type { Cut } from './house.ts'
import { cropped, type Delivery, type Original } from './studio.ts'

/** What was done, by the way it was done. */
export interface Done {
  readonly renamed: string[]
  readonly deleted: string[]
  readonly saved: string[]
  /** Files that somebody in the studio made again, took away or knew the name of. */
  readonly supplied: string[]
}

/**
 * Does what a report asks, by nothing but the report and the list of renames, and with what the studio has: uncropped
 * frames, and for what no computer can make the right files.
 */
export async function applyFixes(
  report: Report,
  renames: string,
  folder: string,
  studio: Pick<Delivery, 'originals' | 'supply' | 'known'>,
): Promise<Done> {
  const done: Done = { renamed: [], deleted: [], saved: [], supplied: [] }
  await promisify(execFile)('sh', ['-c', renames, 'renames.sh', folder])
  const now = new Map<string, string | null>()
  for (const { renames: asked = [] } of allOutcomes(report)) {
    for (const one of asked) {
      if ('to' in one) now.set(one.from, one.to)
      if ('sameAs' in one) now.set(one.from, null)
    }
  }
  done.renamed.push(...[...now].flatMap(([, to]) => to ?? []))
  done.deleted.push(...[...now].flatMap(([from, to]) => (to === null ? [from] : [])))
  const findings = findingsByFile(report)
  for (const file of report.files) {
    const path = now.get(file.file) === undefined ? file.file : now.get(file.file)
    // Whoever settles a name comes first.
    if (path === null || path === undefined || studio.known.has(file.file)) continue
    const settings = settingsOf(file, findings.get(file.file) ?? [])
    if (!settings) continue
    const original = studio.originals.get(path)
    await writeFile(join(folder, path), await exported(file, settings, join(folder, path), original))
    // The next crop counts from where this one lies.
    if (original)
      studio.originals.set(path, { ...original, cut: cutFor(file.measurements, settings.crop, original) })
    done.saved.push(path)
  }
  await bySomebody(report, folder, studio, done)
  return done
}

function allOutcomes({ files, delivery }: Report): Outcome[] {
  return [...files.flatMap(({ outcomes }) => outcomes), ...delivery.outcomes]
}

/** All that one file has to be saved again for: one crop, and the settings of all rules together. */
interface Settings {
  readonly crop: CropTold | null
  readonly settings: Partial<ExportSettings>
  readonly isFromOriginal: boolean
}

function settingsOf({ measurements }: FileReport, outcomes: readonly Outcome[]): Settings | null {
  const failing = outcomes.filter(({ verdict }) => verdict === 'fail')
  const exports = failing.flatMap((outcome) => outcome.export ?? [])
  const crop = failing.find((outcome) => outcome.crop)?.crop ?? null
  if (exports.length === 0 && !crop) return null
  const leaveOut = exports.flatMap((one) => one.leaveOut ?? [])
  const { widthPx } = measurements
  const isLarger = crop?.scaleTo && crop.scaleTo.widthPx > crop.widthPx
  return {
    crop,
    settings: { ...Object.assign({}, ...exports), leaveOut },
    isFromOriginal:
      widthPx === null ||
      exports.some(({ from }) => from === 'original') ||
      Boolean(crop?.missing || isLarger),
  }
}

async function exported(
  { file, measurements }: FileReport,
  { crop, settings, isFromOriginal }: Settings,
  path: string,
  original: Original | undefined,
): Promise<Buffer> {
  const { metadata, jpeg, ppi } = measurements
  const told: Labels = {
    creator: metadata?.creator[0] ?? '',
    copyright: metadata?.copyright ?? '',
    altText: metadata?.altText ?? null,
    rawName: metadata?.origin.rawFileName ?? null,
  }
  const labels = isFromOriginal && original ? original.labels : told
  const altText = settings.fillIn?.['alt-text']?.[0] ?? labels.altText
  const { formats = ['jpeg'], colorSpace = 'sRGB' } = settings
  if (!formats.includes('jpeg') || colorSpace !== 'sRGB') throw new Error('The studio saves JPEG in sRGB.')
  const saving: Saving = {
    labels: { ...labels, altText },
    ppi: settings.ppi ?? ppi ?? original?.ppi ?? null,
    quality: Math.max(settings.quality?.min ?? 0, jpeg?.quality ?? 92),
    subsampling: settings.subsampling?.[0] ?? jpeg?.subsampling ?? '4:4:4',
    progressive: settings.progressive ?? jpeg?.progressive ?? false,
  }
  if (!isFromOriginal) return saved(partOf(sharp(await readFile(path)).autoOrient(), crop), saving)
  if (!original) throw new Error(`The studio has no frame for ${file}.`)
  const { width = {}, height = {} } = settings.pixels ?? {}
  const { widthPx, heightPx } = crop ?? sizeOf(measurements, original)
  const size = crop?.scaleTo ?? { widthPx: width.min ?? widthPx, heightPx: height.min ?? heightPx }
  return saved(cropped(original.frame, cutFor(measurements, crop, original), size), saving)
}

function partOf(picture: Sharp, crop: CropTold | null): Sharp {
  if (!crop) return picture
  const { leftPx: left, topPx: top, widthPx: width, heightPx: height, scaleTo } = crop
  const cut = picture.extract({ left, top, width, height })
  return scaleTo ? cut.resize(scaleTo.widthPx, scaleTo.heightPx, { fit: 'fill' }) : cut
}

/** The crop in the uncropped frame, whose px are other ones than those of the file. */
function cutFor(measured: FileReport['measurements'], crop: CropTold | null, original: Original): Cut {
  const { cut } = original
  if (!crop) return cut
  const scale = cut.width / sizeOf(measured, original).widthPx
  return {
    left: Math.round(cut.left + scale * crop.leftPx),
    top: Math.round(cut.top + scale * crop.topPx),
    width: Math.round(scale * crop.widthPx),
    height: Math.round(scale * crop.heightPx),
  }
}

function sizeOf({ widthPx, heightPx }: FileReport['measurements'], { size }: Original) {
  return widthPx && heightPx ? { widthPx, heightPx } : size
}

/** What is left to people: the findings that name no rename, no crop and no way to save again. */
async function bySomebody(
  { files, delivery }: Report,
  folder: string,
  { supply, known }: Pick<Delivery, 'supply' | 'known'>,
  done: Done,
): Promise<void> {
  const failing = [
    ...files.flatMap(({ file, outcomes }) =>
      outcomes.map((outcome) => ({ ...outcome, files: [file], people: [] })),
    ),
    ...delivery.outcomes,
  ].filter((outcome) => outcome.verdict === 'fail')
  const open = failing.filter((outcome) => !outcome.renames && !outcome.crop && !outcome.export)
  const asked = new Set(open.flatMap((outcome) => outcome.files))
  const missing = (delivery.matrix?.rows ?? []).filter(({ cells }) =>
    cells.some(({ state }) => state === 'missing'),
  )
  for (const [path, bytes] of supply) {
    const isMissing = missing.some(({ person }) => person.split(' ').every((word) => path.includes(word)))
    if (!asked.has(path) && !isMissing) continue
    if (bytes === null) await rm(join(folder, path))
    else await write(join(folder, path), bytes)
    supply.delete(path)
    done.supplied.push(path)
  }
  for (const [from, to] of known) {
    if (!asked.has(from)) continue
    await rename(join(folder, from), join(folder, to))
    known.delete(from)
    done.supplied.push(from)
  }
}

async function write(path: string, bytes: Buffer): Promise<void> {
  await mkdir(dirname(path), { recursive: true })
  await writeFile(path, bytes)
}
