import { readFile, stat } from 'node:fs/promises'
import { basename, dirname, extname, join } from 'node:path'
import { causeOf } from '../files/cause.ts'
import { replaceWhole } from '../files/replace-whole.ts'
import { readSourceText } from '../files/source-text.ts'
import { findPeople } from '../people/people.ts'
import { readRoster } from '../people/roster.ts'
import type { RosterEntry } from '../people/roster-entry.ts'
import { copyWithPicks, PICK, type RosterReading, withPick } from '../people/roster-picks.ts'

/** UTF-8's byte order mark. @source The Unicode Standard 15.0, 2.13 */
const MARK = Buffer.from([0xef, 0xbb, 0xbf])

/** Where picks were written, or why they could not be, as a sentence. */
export type Written = { readonly file: string } | { readonly problem: string }

/** A roster's file, whose column `pick` is kept; without one, a copy beside it that has the column. */
export class RosterFile {
  readonly #path: string
  readonly #reading: RosterReading

  /** @param path absolute */
  constructor(path: string, reading: RosterReading) {
    this.#path = path
    this.#reading = reading
  }

  /** What somebody's column `pick` says now; nothing when that can't be read. */
  async pickOf(label: string): Promise<string> {
    const read = await this.#read()
    return ('entries' in read && read.entries.get(label)?.values[PICK]) || ''
  }

  /**
   * Writes picks, whole or not at all. The roster is read anew, since others may have written to it.
   * @param picks by the labels of people: all of the session
   */
  async write(picks: ReadonlyMap<string, string>): Promise<Written> {
    const name = basename(this.#path)
    const read = await this.#read()
    if ('problem' in read) return read
    const lines = new Map<number, string>()
    for (const [label, value] of picks) {
      const entry = read.entries.get(label)
      if (entry) lines.set(entry.line, value)
    }
    try {
      return (await this.#inPlace(read.text, lines)) ?? (await this.#beside(read.text, lines))
    } catch (error) {
      const code = causeOf(error)
      return {
        problem: `Picks could not be written to ${name} (${code}); they are kept in the session’s log.`,
      }
    }
  }

  async #read(): Promise<{ text: string; entries: ReadonlyMap<string, RosterEntry> } | { problem: string }> {
    const file = basename(this.#path)
    const read = await readSourceText(this.#path)
    if ('problem' in read)
      return { problem: `The roster ${file} ${read.problem} Picks are kept in the session’s log.` }
    const { naming, headers } = this.#reading
    const roster = readRoster({ file, text: read.text }, naming, headers)
    if ('problems' in roster) {
      const [{ line, message } = { line: 1, message: '' }] = roster.problems
      return { problem: `${file}:${line}: ${message} Picks are kept in the session’s log.` }
    }
    const { people } = findPeople([], naming, roster.roster)
    const entries = people.flatMap(({ label, entry }) => (entry ? [[label, entry] as const] : []))
    return { text: read.text, entries: new Map(entries) }
  }

  /** Null when the roster has no column for picks, or is not in UTF-8, and so is left as it is. */
  async #inPlace(before: string, lines: ReadonlyMap<number, string>): Promise<Written | null> {
    const bytes = await readFile(this.#path)
    const hasMark = bytes.subarray(0, MARK.length).equals(MARK)
    if (!(hasMark ? bytes.subarray(MARK.length) : bytes).equals(Buffer.from(before))) return null
    let text = before
    for (const [line, value] of lines) {
      const changed = withPick({ file: this.#path, text }, { line, value }, this.#reading)
      if (changed === null) return null
      text = changed
    }
    const { mode } = await stat(this.#path)
    if (text !== before)
      await replaceWhole(this.#path, Buffer.concat([hasMark ? MARK : Buffer.alloc(0), Buffer.from(text)]), {
        flush: true,
        mode: mode & 0o777,
      })
    return { file: this.#path }
  }

  async #beside(text: string, lines: ReadonlyMap<number, string>): Promise<Written> {
    const name = basename(this.#path)
    const copy = copyWithPicks({ file: name, text }, lines, this.#reading)
    if (copy === null)
      return {
        problem: `${name} can’t be copied as a roster with picks; they are kept in the session’s log.`,
      }
    const file = copyPath(this.#path)
    await replaceWhole(file, Buffer.concat([MARK, Buffer.from(copy)]), { flush: true })
    return { file }
  }
}

/** "staff-picks.csv" of "staff.csv". */
function copyPath(path: string): string {
  const extension = extname(path)
  return join(dirname(path), `${basename(path, extension)}-picks.csv`)
}
