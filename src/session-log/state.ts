import { frameName } from '../frames/one-frame.ts'
import type { Measurements } from '../measure/schema/measurements.ts'
import type { Deed, Entry, FrameEntry, SeenFile } from './entry.ts'

/** A frame of the session. */
export interface Frame {
  /** SHA-256, hex, of the file that it was measured by. */
  readonly digest: string
  readonly at: string
  readonly measured: Measurements
  readonly fullSize: FrameEntry['fullSize']
  /** Its files from the session's folder, the one that it was measured by first. */
  readonly files: readonly string[]
  /** Label of whose frame it is; null when nobody sat. */
  readonly sitter: string | null
}

/** What was picked, and what the roster said before the first pick of the session. */
export interface Pick {
  readonly frame: string | null
  readonly was: string
}

/** What a session's entries come to, entry by entry. */
export class SessionState {
  readonly #frames = new Map<string, Frame>()
  readonly #picks = new Map<string, Pick>()
  /** By path, whatever it is. */
  readonly #seen = new Map<string, SeenFile>()
  /** What is known of a content: the frame that it belongs to, or null for what is left alone. */
  readonly #contents = new Map<string, string | null>()
  /** The frames by path. */
  readonly #byFile = new Map<string, string>()
  readonly #byName = new Map<string, Set<string>>()
  #sitting: string | null = null

  /** In order of arrival. */
  get frames(): readonly Frame[] {
    return [...this.#frames.values()]
  }

  get sitting(): string | null {
    return this.#sitting
  }

  get picks(): ReadonlyMap<string, Pick> {
    return this.#picks
  }

  frame(digest: string): Frame | null {
    return this.#frames.get(digest) ?? null
  }

  /** The frames that have a file of such a name, in whatever folder and format. @param name as {@link frameName} tells it */
  framesNamed(name: string): readonly Frame[] {
    const digests = [...(this.#byName.get(name) ?? [])]
    return digests.flatMap((digest) => this.#frames.get(digest) ?? [])
  }

  /** Whether a file is known as it is, by its place, size and time. */
  hasSeen({ file, bytes, modifiedMs }: Omit<SeenFile, 'digest'>): boolean {
    const seen = this.#seen.get(file)
    return seen?.bytes === bytes && seen.modifiedMs === modifiedMs
  }

  /** The frame that a content belongs to, null for one that is left alone; undefined for what was never seen. */
  frameOf(digest: string): string | null | undefined {
    return this.#contents.get(digest)
  }

  /** The frame that has a file with such a path, as it was last seen. */
  frameAt(file: string): string | null {
    return this.#byFile.get(file) ?? null
  }

  apply(entry: Exclude<Entry, { kind: 'undo' }>): void {
    switch (entry.kind) {
      case 'frame':
        this.#addFrame(entry)
        break
      case 'file':
        this.#see(entry, entry.frame)
        this.#addFile(entry.frame, entry.file)
        break
      case 'left':
        this.#see(entry, null)
        break
      case 'sits':
        this.#sitting = entry.sitter
        break
      case 'joins':
        this.#change(entry.frame, { sitter: entry.sitter })
        break
      case 'pick': {
        const was = this.#picks.get(entry.sitter)?.was ?? entry.was
        this.#picks.set(entry.sitter, { frame: entry.frame, was })
        break
      }
      case 'forgotten':
        for (const digest of entry.digests) this.#contents.set(digest, null)
    }
  }

  #addFrame({ digest, file, at, measured, fullSize, ...seen }: FrameEntry): void {
    const before = this.#frames.get(this.#byFile.get(file) ?? '')
    this.#see({ digest, file, ...seen }, digest)
    const sitter = before ? before.sitter : this.#sitting
    this.#frames.set(digest, { digest, at, measured, fullSize, files: [], sitter })
    if (before) this.#withoutFile(before, file, digest)
    this.#addFile(digest, file)
  }

  /** A file was written over: what it held before is another frame's, or gone, and picked is what took its place. */
  #withoutFile(frame: Frame, file: string, successor: string): void {
    const files = frame.files.filter((one) => one !== file)
    if (files.length > 0) {
      this.#change(frame.digest, { files })
      return
    }
    this.#frames.delete(frame.digest)
    for (const [sitter, pick] of this.#picks)
      if (pick.frame === frame.digest) this.#picks.set(sitter, { ...pick, frame: successor })
  }

  #addFile(digest: string, file: string): void {
    const frame = this.#frames.get(digest)
    if (!frame) return
    this.#byFile.set(file, digest)
    const name = frameName(file)
    this.#byName.set(name, (this.#byName.get(name) ?? new Set()).add(digest))
    if (!frame.files.includes(file)) this.#change(digest, { files: [...frame.files, file] })
  }

  #see({ file, bytes, modifiedMs, digest }: SeenFile, frame: string | null): void {
    this.#seen.set(file, { file, bytes, modifiedMs, digest })
    this.#contents.set(digest, frame)
  }

  #change(digest: string, change: Partial<Frame>): void {
    const frame = this.#frames.get(digest)
    if (frame) this.#frames.set(digest, { ...frame, ...change })
  }
}

/** What all entries come to, and the deed that would be taken back next. */
export function stateOf(entries: readonly Entry[]): { state: SessionState; last: Deed | null } {
  const undone = new Set<Entry>()
  const deeds: Deed[] = []
  for (const entry of entries) {
    if (isDeed(entry)) deeds.push(entry)
    else if (entry.kind === 'undo') {
      const deed = deeds.pop()
      if (deed) undone.add(deed)
    }
  }
  const state = new SessionState()
  for (const entry of entries) if (entry.kind !== 'undo' && !undone.has(entry)) state.apply(entry)
  return { state, last: deeds.at(-1) ?? null }
}

export function isDeed(entry: Entry): entry is Deed {
  return entry.kind === 'sits' || entry.kind === 'joins' || entry.kind === 'pick'
}
