import type { Spec } from '../brand-spec/spec.ts'
import { readNames } from '../delivery/identify.ts'
import { galleryText } from '../gallery/gallery-file.ts'
import { measureAll } from '../pool/measure-all.ts'
import { traitsOf } from '../rules/delivery/set-traits.ts'
import { findPictures } from './find-pictures.ts'
import type { Host } from './host.ts'
import { type MeasuringOptions, meansOf } from './means.ts'
import { progressLine } from './progress.ts'

/** Measures published portraits and gives the text of a gallery file; null when there are none, which is said. */
export async function measureGallery(
  paths: readonly string[],
  spec: Pick<Spec, 'naming' | 'deliverables'>,
  options: MeasuringOptions,
  host: Host,
): Promise<{ text: string; portraits: number; unread: readonly string[] } | null> {
  const found = await findPictures(paths, host)
  if (!found) return null
  const names = readNames(found.files, spec.naming, Object.keys(spec.deliverables))
  const progress = progressLine(host)
  const groups = ['file', 'decode', 'background', 'face', 'head', 'finish'] as const
  const means = await meansOf(options, host, progress.show)
  const measured = await measureAll(found.files, groups, means)
  progress.clear()
  const read = measured.flatMap((one, i) =>
    one.fault ? [] : [{ deliverable: names[i]?.deliverable ?? null, traits: traitsOf(one) }],
  )
  const unread = measured.filter(({ fault }) => fault !== null).map(({ file }) => file)
  return { text: galleryText(read), portraits: read.length, unread }
}
