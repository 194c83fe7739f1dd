import type { Spec } from '../brand-spec/spec.ts'
import { readNames } from '../delivery/identify.ts'
import { measureAll } from '../pool/measure-all.ts'
import type { GalleryPortrait } from '../rules/contract/delivery-rule.ts'
import { traitsOf } from '../rules/delivery/set-traits.ts'
import { findPictures } from './find-pictures.ts'
import type { Host } from './host.ts'
import { type MeasuringOptions, meansOf } from './means.ts'
import { progressLine } from './progress.ts'

/** Published portraits as a gallery has them. */
export interface MeasuredGallery {
  readonly portraits: readonly GalleryPortrait[]
  /** Paths of the files that they are of, in the same order. */
  readonly files: readonly string[]
  /** Paths of the files that could not be read. */
  readonly unread: readonly string[]
}

/** Measures published portraits for a gallery; null when there are none, which is said. */
export async function measureGallery(
  paths: readonly string[],
  spec: Pick<Spec, 'naming' | 'deliverables'>,
  options: MeasuringOptions,
  host: Host,
): Promise<MeasuredGallery | null> {
  const found = await findPictures(paths, host)
  if (!found) return null
  const names = readNames(found.files, spec.naming, Object.keys(spec.deliverables))
  const progress = progressLine(host)
  const groups = ['file', 'decode', 'background', 'face', 'head', 'finish', 'focus', 'texture'] as const
  const means = await meansOf(options, host, progress.show)
  const measured = await measureAll(found.files, groups, means)
  progress.clear()
  const read = measured.flatMap((one, i) =>
    one.fault ? [] : [{ file: one.file, deliverable: names[i]?.deliverable ?? null, traits: traitsOf(one) }],
  )
  return {
    portraits: read.map(({ deliverable, traits }) => ({ deliverable, traits })),
    files: read.map(({ file }) => file),
    unread: measured.filter(({ fault }) => fault !== null).map(({ file }) => file),
  }
}
