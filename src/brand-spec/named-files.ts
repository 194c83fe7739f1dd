import { rosterSetting } from '../people/roster-setting.ts'
import type { Spec } from './spec.ts'

/** The files that a spec names: paths from its folder as written, which may be a stranger's; undefined where it names none. */
export interface NamedFiles {
  readonly roster: string | undefined
  readonly waivers: string | undefined
}

export function namedFiles({ settings, waivers }: Pick<Spec, 'settings' | 'waivers'>): NamedFiles {
  return { roster: rosterSetting(settings.roster).file, waivers: waivers ?? undefined }
}
