import type { Measurements } from '../measure/schema/measurements.ts'

/** A file of the session's folder, as far as is needed to know it again without reading it. */
export interface SeenFile {
  /** From the session's folder, with `/`. */
  readonly file: string
  readonly bytes: number
  /** When it was last changed, in ms since 1970. */
  readonly modifiedMs: number
  /** SHA-256 of the whole file, hex. */
  readonly digest: string
}

/** A frame that was measured. It is known by the digest of the file that it was measured by. */
export interface FrameEntry extends SeenFile {
  readonly kind: 'frame'
  /** When it arrived, ISO 8601 in UTC, by this machine's clock, which may jump: the order is that of the entries. */
  readonly at: string
  readonly measured: Measurements
  /** Size of the frame, px as displayed, where a smaller picture of it was measured; else null. */
  readonly fullSize: { readonly widthPx: number; readonly heightPx: number } | null
}

/** Another file of a frame: its raw file, a copy, or the same file in another place. */
interface FileEntry extends SeenFile {
  readonly kind: 'file'
  readonly frame: string
}

/** A file that is no frame, or none that can be judged. */
export interface LeftEntry extends SeenFile {
  readonly kind: 'left'
  readonly why: string
}

/** Who sits now: a label of the roster's people, or nobody. Frames that follow are theirs. */
interface SitsEntry {
  readonly kind: 'sits'
  readonly sitter: string | null
}

/** A frame is given to somebody else than who sat when it arrived. */
interface JoinsEntry {
  readonly kind: 'joins'
  readonly frame: string
  readonly sitter: string | null
}

/** What a sitter picked; null takes the pick back. */
interface PickEntry {
  readonly kind: 'pick'
  readonly sitter: string
  readonly frame: string | null
  /** What the roster said before, so that taking back restores it. */
  readonly was: string
}

/** What somebody did by hand, which can be undone. */
export type Deed = SitsEntry | JoinsEntry | PickEntry

/** Takes back the last deed that is not taken back yet. */
interface UndoEntry {
  readonly kind: 'undo'
}

/** Frames of somebody who was forgotten: not to be looked at again. */
interface ForgottenEntry {
  readonly kind: 'forgotten'
  readonly digests: readonly string[]
}

/** A line of the session's log. */
export type Entry = FrameEntry | FileEntry | LeftEntry | Deed | UndoEntry | ForgottenEntry

const TEXT = 'string'
const OR_NULL = ['string', 'null']

/** What each kind of entry must hold, by the types of its values. */
const SHAPES: Readonly<Record<Entry['kind'], Readonly<Record<string, string | readonly string[]>>>> = {
  frame: {
    file: TEXT,
    bytes: 'number',
    modifiedMs: 'number',
    digest: TEXT,
    at: TEXT,
    measured: 'object',
    fullSize: ['object', 'null'],
  },
  file: { file: TEXT, bytes: 'number', modifiedMs: 'number', digest: TEXT, frame: TEXT },
  left: { file: TEXT, bytes: 'number', modifiedMs: 'number', digest: TEXT, why: TEXT },
  sits: { sitter: OR_NULL },
  joins: { frame: TEXT, sitter: OR_NULL },
  pick: { sitter: TEXT, frame: OR_NULL, was: TEXT },
  undo: {},
  forgotten: { digests: 'list' },
}

/** Whether a value that was read is an entry: what an editor or a failing disk made of the log must not be taken for one. */
export function isEntry(value: unknown): value is Entry {
  if (typeof value !== 'object' || value === null) return false
  const kind: unknown = Reflect.get(value, 'kind')
  const shape = typeof kind === 'string' && Object.hasOwn(SHAPES, kind) ? SHAPES[kind as Entry['kind']] : null
  if (!shape) return false
  return Object.entries(shape).every(([key, types]) =>
    [types].flat().includes(typeOf(Reflect.get(value, key))),
  )
}

function typeOf(value: unknown): string {
  if (value === null) return 'null'
  return Array.isArray(value) ? 'list' : typeof value
}
