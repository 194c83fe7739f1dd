import { mkdir } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { UsageError } from '../checking/usage-error.ts'
import { mergedName } from '../delivery/portability.ts'
import { causeOf } from '../files/cause.ts'
import { isInside } from '../files/folders.ts'
import { realPlace } from '../files/real-place.ts'
import { replaceWhole } from '../files/replace-whole.ts'
import type { Checkout } from './git/checkout.ts'
import type { Tree } from './git/tree.ts'
import type { Inputs } from './job/inputs.ts'
import type { Runner } from './job/runner.ts'
import { fromTop } from './standard/base-spec.ts'

/**
 * Makes the folder for the reports. It ignores itself, so that no later step commits faces by mistake.
 * @returns absolute path
 * @throws UsageError when a change could have put anything there, or a link on the way to it, or it can't be made
 */
export async function openReportFolder(
  { workspace }: Runner,
  { reportFolder: path }: Inputs,
  checkout: Checkout | null,
): Promise<string> {
  const full = resolve(workspace, path)
  if (!isInside(full, workspace) || (await realPlace(full)) !== full)
    throw new UsageError(
      `The report folder ${path} leads elsewhere, by its name or by a link. Name a folder in the workspace without links on its way.`,
    )
  refuseTracked(checkout, full, `the report folder ${path}`)
  try {
    await mkdir(full, { recursive: true })
    await replaceWhole(join(full, '.gitignore'), '*\n')
  } catch (error) {
    throw new UsageError(
      `The report folder ${path} can't be written to (${causeOf(error)}). Name another one.`,
    )
  }
  return full
}

/**
 * Where measurements are kept from one run to the next: below the runner's own temporary folder, where no commit can put
 * entries.
 * @returns absolute path; null to keep none
 * @throws UsageError when it lies elsewhere
 */
export async function cachePlace({ temp }: Runner, { cacheFolder: path }: Inputs): Promise<string | null> {
  if (path === null) return null
  const full = await realPlace(resolve(temp, path))
  if (full === null || !isInside(full, temp))
    throw new UsageError(
      `The cache folder ${path} is not in the runner's temporary folder. In the checkout, a change could commit its own measurements; write just a name, such as portrait-cache, and \${{ runner.temp }}/portrait-cache in the cache step.`,
    )
  return full
}

/** @throws UsageError when the commit has anything at a path, below it or in its place, under any spelling of its name */
export function refuseTracked(checkout: Checkout | null, full: string, what: string): void {
  const place = checkout && fromTop(checkout.git.folder, full)
  const tracked = checkout && place !== null ? trackedAt(checkout.head, place) : undefined
  if (tracked === undefined) return
  throw new UsageError(
    `The commit has ${tracked}, in ${what}: whoever proposes a change could write there. Name a folder that git does not track.`,
  )
}

function trackedAt({ entries }: Tree, place: string): string | undefined {
  const wanted = mergedName(place).split('/')
  for (const [path, { kind }] of entries) {
    const names = mergedName(path).split('/')
    const isOnTheWay = names.length < wanted.length
    if (isOnTheWay && kind === 'folder') continue
    const shorter = Math.min(names.length, wanted.length)
    if (place === '' || names.slice(0, shorter).join('/') === wanted.slice(0, shorter).join('/')) return path
  }
  return undefined
}
