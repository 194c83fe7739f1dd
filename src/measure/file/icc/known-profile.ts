import type { Profile } from '../../schema/measurements.ts'
import { identify } from './identity.ts'
import { readProfile } from './profile.ts'

export interface KnownProfile {
  readonly identity: Profile
  readonly name: string | null
}

/** Of a profile that can't be read. */
export const UNKNOWN: KnownProfile = { identity: 'other', name: null }

/** Most profiles remembered. @choice the files of a delivery share a profile or two, no source. */
const MOST_KEPT = 16

/** Largest profile remembered, bytes. @choice no source: those of RGB spaces are under 25 kB; ones with tables for printing are larger. */
const LARGEST_KEPT = 64 * 1024
const kept = new Map<string, KnownProfile>()

/** What an ICC profile is and calls itself; told at once of one that was asked before. Never throws. */
export function knownProfile(icc: Buffer): KnownProfile {
  if (icc.length > LARGEST_KEPT) return readKnown(icc)
  const content = icc.toString('latin1')
  const known = kept.get(content) ?? readKnown(icc)
  if (!kept.has(content)) {
    if (kept.size === MOST_KEPT) kept.clear()
    kept.set(content, known)
  }
  return known
}

function readKnown(icc: Buffer): KnownProfile {
  const profile = readProfile(icc)
  if (!profile) return UNKNOWN
  return { identity: profile.model ? identify(profile.model) : 'other', name: profile.name }
}
