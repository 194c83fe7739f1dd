import { stat } from 'node:fs/promises'
import { resolve } from 'node:path'
import type { Spec } from '../brand-spec/spec.ts'
import { readSourceText, type SourceText } from '../files/source-text.ts'
import { galleryText } from '../gallery/gallery-file.ts'
import { forTerminal } from '../report/safe.ts'
import type { Host } from './host.ts'
import type { MeasuringOptions } from './means.ts'
import { measureGallery } from './measure-gallery.ts'
import { UsageError } from './usage-error.ts'

/**
 * The text of a gallery file, or what it would be for the portraits in a folder.
 * @throws UsageError when there is nothing that can be read
 */
export async function readGallerySource(
  path: string,
  spec: Spec,
  options: MeasuringOptions,
  host: Host,
): Promise<SourceText> {
  const full = resolve(host.cwd, path)
  const isFolder = await stat(full).then(
    (stats) => stats.isDirectory(),
    () => false,
  )
  if (!isFolder) {
    const read = await readSourceText(full)
    if ('problem' in read) throw new UsageError(`The gallery file ${path} ${read.problem}`)
    return { file: path, text: read.text }
  }
  const made = await measureGallery([path], spec, options, host)
  if (!made)
    throw new UsageError(
      `The gallery ${path} has no portraits. Name a folder that has some, or leave the option out.`,
    )
  for (const file of made.unread)
    host.stderr.write(`${forTerminal(`${file} of the gallery could not be read and was left out.`)}\n`)
  return { file: path, text: galleryText(made.portraits) }
}
