import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { PrepareSetting } from '../brand-spec/prepare-setting.ts'
import type { Places } from './ledger/places.ts'
import type { Prepared } from './ledger/prepared.ts'
import { recipeOf } from './ledger/recipe.ts'
import type { PlannedFile } from './planning/plan.ts'
import { placeOf, type Ready } from './publish.ts'
import { hashOf } from './work.ts'

/** What is to be done about a planned file in view of what is there. */
export type Step =
  | { readonly kind: 'make'; readonly replaces: string | null }
  /** It is there already, made from the same by the same recipe. */
  | { readonly kind: 'keep'; readonly ready: Ready }
  | { readonly kind: 'refuse'; readonly reason: string }

/** Looks at what stands where a planned file is to go. */
export async function stepFor(
  planned: PlannedFile,
  {
    known,
    places,
    setting,
    replace,
  }: {
    readonly known: Prepared | null
    readonly places: Places
    readonly setting: PrepareSetting
    readonly replace: boolean
  },
): Promise<Step> {
  const entry = known?.files.find(({ file }) => file === planned.file)
  const delivered = await hashAt(join(places.output, planned.file))
  const heldBack = await hashAt(join(places.heldBack, planned.file))
  const isSame = entry?.recipe === recipeOf(planned, setting)
  if (entry && isSame) {
    for (const [hash, state] of [
      [delivered, 'delivered'],
      [heldBack, 'held-back'],
    ] as const)
      if (hash === entry.sha256) {
        const at = placeOf({ ...entry, state }, places)
        return { kind: 'keep', ready: { at, entry: { ...entry, made: 'earlier' } } }
      }
  }
  if (delivered !== null && !replace) {
    const isOurs = entry !== undefined && [entry.sha256, entry.replaces].includes(delivered)
    if (!isOurs)
      return {
        kind: 'refuse',
        reason: `${planned.file} is there already, and is not as prepare has made it. Move it away, or replace it with --replace.`,
      }
    if (entry.master.file !== planned.master.found.file)
      return {
        kind: 'refuse',
        reason: `${planned.file} was made from another master, ${entry.master.file}. Replace it with --replace.`,
      }
  }
  return { kind: 'make', replaces: delivered }
}

/**
 * Files of earlier runs that this one does not make, or could not make anew, as far as they are still there as they were made.
 * @param ready what it has
 */
export async function carriedOver(
  known: Prepared | null,
  ready: readonly Ready[],
  places: Places,
): Promise<Ready[]> {
  const own = new Set(ready.map(({ entry: { file } }) => file))
  const carried: Ready[] = []
  for (const entry of known?.files ?? []) {
    const at = placeOf(entry, places)
    if (own.has(entry.file) || (await hashAt(at)) !== entry.sha256) continue
    carried.push({ at, entry: { ...entry, made: 'earlier' } })
  }
  return carried
}

/** SHA-256 of what is there; null when nothing is, or it can't be read. */
async function hashAt(path: string): Promise<string | null> {
  return readFile(path).then(hashOf, () => null)
}
