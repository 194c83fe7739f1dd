import { join } from 'node:path'
import type { Standard } from '../judge/standard.ts'
import { findPeople } from '../people/people.ts'
import { Session } from '../session-log/session.ts'
import { Previews } from './preview.ts'
import type { RosterFile, Written } from './roster-file.ts'
import { nameOf } from './sitters.ts'

/** What was taken out of a session. */
export interface Forgotten {
  readonly frames: number
  /** Files of theirs, which are left as they are, from the watched folder. */
  readonly files: readonly string[]
  /** Where their pick was taken out, or why it could not be; null without a roster or a pick. */
  readonly picks: Written | null
}

/**
 * Takes somebody out of a session: their frames, numbers and picks out of the log, the pictures that pages showed, and their pick out of the
 * roster's column, where it came from. Their own files are left.
 * @throws the system's error when the session can't be read or written
 */
export async function forgetSitter(
  sitter: string,
  sessionFolder: string,
  roster: RosterFile | null,
): Promise<Forgotten> {
  const { session } = await Session.open(sessionFolder, () => {})
  try {
    const own = session.state.frames.filter((frame) => frame.sitter === sitter)
    const pick = session.state.picks.get(sitter)
    const { digests, files } = await session.forget(sitter)
    await new Previews(join(sessionFolder, PREVIEWS)).remove(digests)
    const picks = pick && roster ? await roster.write(new Map([[sitter, pick.was]])) : null
    return { frames: own.length, files, picks }
  } finally {
    await session.close()
  }
}

/** All whom a session may be asked to forget: those on the roster, and whoever was on it when their frames were taken. */
export async function sittersKnown(
  sessionFolder: string,
  { spec, roster }: Pick<Standard, 'spec' | 'roster'>,
): Promise<readonly { readonly label: string; readonly name: string }[]> {
  const { session } = await Session.open(sessionFolder, () => {})
  const { frames } = session.state
  await session.close()
  const { people } = findPeople([], spec.naming, roster)
  const listed = people.map((person) => ({ label: person.label, name: nameOf(person) }))
  const others = new Set(frames.flatMap(({ sitter }) => sitter ?? []))
  for (const { label } of listed) others.delete(label)
  return [...listed, ...[...others].map((label) => ({ label, name: label }))]
}

/** Name of the folder of previews in that of the session. */
export const PREVIEWS = 'previews'
