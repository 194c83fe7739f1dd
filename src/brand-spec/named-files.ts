import { rosterSetting } from '../people/roster-setting.ts'
import type { Spec } from './spec.ts'

/** A file that a spec names. */
export interface NamedFile {
  /** From the folder of the spec that names it, as written, which may be a stranger's. */
  readonly path: string
  /** Path of that spec: the user's own, or one that it extends. */
  readonly by: string
}

/** The files that a spec names; undefined where it names none. */
export interface NamedFiles {
  readonly roster: NamedFile | undefined
  readonly waivers: NamedFile | undefined
}

export function namedFiles({ settings, waivers, namedIn }: Spec): NamedFiles {
  const { file } = rosterSetting(settings.roster)
  return {
    roster: file === undefined ? undefined : { path: file, by: namedIn.roster },
    waivers: waivers === null ? undefined : { path: waivers, by: namedIn.waivers },
  }
}
