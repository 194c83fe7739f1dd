import { join } from 'node:path'
import { Arrivals } from '../arrivals/arrivals.ts'
import type { Candidate } from '../arrivals/candidate.ts'
import type { FolderNews } from '../arrivals/folder-watch.ts'
import { frameGroups } from '../frames/needs.ts'
import type { Standard } from '../judge/standard.ts'
import { type Warm, warm } from '../pool/warm.ts'
import type { Deed } from '../session-log/entry.ts'
import { Session } from '../session-log/session.ts'
import type { Frame } from '../session-log/state.ts'
import { PREVIEWS } from './forget.ts'
import { type JudgedFrame, judgedFrame } from './judged-frame.ts'
import { Notes } from './notes.ts'
import { nameOf } from './pick-name.ts'
import { PickWriter } from './pick-writer.ts'
import { Previews } from './preview.ts'
import type { RosterFile } from './roster-file.ts'
import { courseOf } from './session-drift.ts'
import { type Sitter, sittersOf } from './sitters.ts'
import { FrameTaker } from './take-frame.ts'
import type { View } from './view.ts'
import type { Wish } from './wish.ts'

/** What is measured beside what judging reads: when a frame was taken. */
const KNOWN_BESIDE = ['metadata'] as const

const NO_NOTICES =
  'The system does not tell of new files here; the folder is looked through every few seconds.'
const GONE =
  'The folder is not there: it was renamed or removed, or its disk is gone. Frames are taken again when it is back.'

/** What a session on location is made of. */
export interface WatchOptions {
  /** Absolute. */
  readonly folder: string
  /** Where the session is kept, absolute. */
  readonly sessionFolder: string
  readonly standard: Standard
  /** Null when there is no roster. */
  readonly roster: RosterFile | null
  /** Worker threads to measure with; 0 to measure in this one. */
  readonly workers: number
  readonly signal: AbortSignal
  /** Called whenever something is to be shown anew. */
  readonly onChange: () => void
  /** A frame was judged. */
  readonly onFrame: (judged: JudgedFrame) => void
  /** Something is to be told once, as a sentence. */
  readonly onTold: (sentence: string) => void
}

/** A session on location: frames judged as they arrive, who sits, and what is picked. */
export class Watch {
  readonly #options: WatchOptions
  readonly #session: Session
  readonly #measuring: Warm
  readonly #arrivals: Arrivals
  readonly #taker: FrameTaker
  readonly #judged = new Map<string, JudgedFrame>()
  readonly #notes: Notes
  readonly #picks: PickWriter

  private constructor(options: WatchOptions, session: Session, notes: Notes) {
    this.#options = options
    this.#session = session
    this.#notes = notes
    this.#picks = new PickWriter(options.roster, notes)
    this.#measuring = warm(options.workers)
    this.#taker = new FrameTaker({
      session,
      measuring: this.#measuring,
      previews: new Previews(join(options.sessionFolder, PREVIEWS)),
      groups: [...frameGroups(options.standard.spec), ...KNOWN_BESIDE],
      signal: options.signal,
      onFrame: ({ digest, file }) => {
        notes.drop(`unfinished ${file}`)
        const frame = session.state.frame(digest)
        if (frame) options.onFrame(this.#judge(frame))
        options.onChange()
      },
      onLeft: ({ file, why }) => {
        notes.drop(`unfinished ${file}`)
        options.onTold(`${file} ${why}.`)
        notes.set('left', `Left out: ${file} ${why}.`)
      },
    })
    this.#arrivals = new Arrivals({
      folder: options.folder,
      // One more: while its picture is made, no worker waits.
      atOnce: options.workers + 1,
      isKnown: (candidate) => this.#taker.isKnown(candidate),
      take: (candidate) => this.#take(candidate),
      tellUnfinished: ({ file }) =>
        notes.set(
          `unfinished ${file}`,
          `${file} is not whole: it can’t be read to its end. It is judged when it is.`,
        ),
      tell: (news) => this.#tellFolder(news),
    })
  }

  /** @throws the system's error when the session's folder can't be made or read */
  static async start(options: WatchOptions): Promise<Watch> {
    const notes = new Notes(options.onTold, options.onChange)
    const { session, unread } = await Session.open(options.sessionFolder, (trouble) =>
      notes.set(
        'log',
        trouble &&
          `The session’s log can’t be written (${trouble}). Nothing is lost as long as this runs: free some space, or bring the disk back.`,
      ),
    )
    if (unread > 1) options.onTold(`${unread} lines of the session’s log can’t be read and are passed over.`)
    const watch = new Watch(options, session, notes)
    await watch.#arrivals.start()
    return watch
  }

  view(): View {
    const { standard } = this.#options
    const { state, last } = this.#session
    const today = new Date().toISOString().slice(0, 10)
    const sitters = sittersOf(standard, state, (frame) => this.#judge(frame), today)
    const { frames } = state
    const newest = frames.at(-1)
    return {
      brand: standard.spec.brand,
      sitters,
      sitting: sitters.find(({ label }) => label === state.sitting) ?? null,
      last: newest ? this.#judge(newest) : null,
      course: courseOf(
        frames.map((frame) => this.#judge(frame)),
        standard,
      ),
      frames: frames.length,
      waiting: this.#arrivals.waiting,
      notes: this.#notes.all,
      undo: last && this.#words(last, sitters),
      consent: standard.spec.consent,
    }
  }

  /** What pages show of a frame; null for none of the session, and for one of which there is no picture. */
  async picture(digest: string): Promise<Buffer | null> {
    const frame = this.#session.state.frame(digest)
    return frame && this.#taker.picture(frame, this.#options.folder)
  }

  /** Does what a page asks for; false when it is about somebody or something that is not there. */
  async do(wish: Wish): Promise<boolean> {
    const { state } = this.#session
    const labels = new Set(this.view().sitters.map(({ label }) => label))
    if ('sitter' in wish && wish.sitter !== null && !labels.has(wish.sitter)) return false
    if ('frame' in wish && wish.frame !== null && !state.frame(wish.frame)) return false
    if (wish.do === 'undo') {
      const undone = this.#session.undo()
      if (undone?.kind === 'pick') this.#picks.write(this.#session.state, undone)
    } else if (wish.do === 'sits') this.#session.add({ kind: 'sits', sitter: wish.sitter })
    else if (wish.do === 'joins') this.#session.add({ kind: 'joins', frame: wish.frame, sitter: wish.sitter })
    else {
      const was = await this.#picks.before(wish.sitter)
      this.#session.add({ kind: 'pick', sitter: wish.sitter, frame: wish.frame, was })
      this.#picks.write(this.#session.state)
    }
    this.#options.onChange()
    return true
  }

  /** Resolves when all that is known so far is on the disk, as far as it can be written. */
  async settled(): Promise<void> {
    await this.#session.settled()
    await this.#picks.settled()
  }

  async close(): Promise<void> {
    await this.#arrivals.close()
    await this.#measuring.close()
    await this.settled()
    await this.#session.close()
  }

  async #take(candidate: Candidate) {
    try {
      return await this.#taker.take(candidate)
    } catch (error) {
      if (this.#options.signal.aborted) return 'not-whole' as const
      const words = error instanceof Error ? error.message : String(error)
      this.#notes.set('fault', `${candidate.file} could not be measured: ${words}`)
      return 'not-whole' as const
    } finally {
      this.#options.onChange()
    }
  }

  #tellFolder(news: FolderNews): void {
    if (news === 'no-notices') this.#notes.set('notices', NO_NOTICES)
    else this.#notes.set('folder', news === 'gone' ? GONE : null)
    if (news === 'back') this.#session.retry()
  }

  #judge(frame: Frame): JudgedFrame {
    const known = this.#judged.get(frame.digest)
    if (known?.frame === frame) return known
    const judged = known ? { ...known, frame } : judgedFrame(frame, this.#options.standard)
    this.#judged.set(frame.digest, judged)
    return judged
  }

  #words(deed: Deed, sitters: readonly Sitter[]): string {
    const nameFor = (label: string | null) =>
      sitters.find((sitter) => sitter.label === label)?.name ?? label ?? 'nobody'
    if (deed.kind === 'sits') return `${nameFor(deed.sitter)} sits`
    const frame = deed.frame === null ? null : this.#session.state.frame(deed.frame)
    const file = frame ? nameOf(frame) : 'a frame'
    if (deed.kind === 'joins') return `${file} given to ${nameFor(deed.sitter)}`
    return deed.frame === null
      ? `${nameFor(deed.sitter)} took the pick back`
      : `${nameFor(deed.sitter)} picked ${file}`
  }
}
