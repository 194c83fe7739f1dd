import type { Standard } from '../judge/standard.ts'
import { driftSentence } from '../report/frames/drift-words.ts'
import {
  type Drift,
  type DriftReference,
  driftOf,
  galleryReference,
  referenceOf,
  type SessionFrame,
} from '../session/drift.ts'
import { driftTraitsOf } from '../session/drift-traits.ts'
import type { JudgedFrame } from './judged-frame.ts'

/** What is drawn of a session's course, and what has changed for good in it. */
export interface Course {
  readonly frames: readonly SessionFrame[]
  readonly drifts: readonly { readonly drift: Drift; readonly sentence: string }[]
}

/**
 * A session's frames in order of arrival, held against published portraits where there are any, else against the first good frame.
 * The camera's clock tells when, for it stands on the photographer's wrist; this machine's where the camera's is unknown.
 */
export function courseOf(judged: readonly JudgedFrame[], { gallery }: Pick<Standard, 'gallery'>): Course {
  const frames = judged.map(sessionFrame)
  const good = judged.findIndex(({ verdict }) => verdict === 'pass')
  const drifts = driftOf(frames, referenceFor(frames[good], gallery)).map((drift) => {
    const first = judged[frames.findIndex(({ file }) => file === drift.file)]
    return { drift, sentence: driftSentence(drift, first ? clockOf(first) : '') }
  })
  return { frames, drifts }
}

function referenceFor(good: SessionFrame | undefined, gallery: Standard['gallery']): DriftReference {
  const own = good ? referenceOf([good]) : {}
  return gallery ? { ...own, ...galleryReference(gallery) } : own
}

const known = new WeakMap<object, SessionFrame['traits']>()

function sessionFrame({ frame }: JudgedFrame): SessionFrame {
  const traits = known.get(frame.measured) ?? driftTraitsOf(frame.measured)
  known.set(frame.measured, traits)
  return { file: frame.digest, at: Date.parse(frame.at), sitter: frame.sitter, traits }
}

/** "14:05" */
function clockOf({ frame: { at, measured } }: JudgedFrame): string {
  const taken = /T(\d\d:\d\d)/.exec(measured.metadata?.captureTime ?? '')?.[1]
  return taken ?? new Date(at).toTimeString().slice(0, 5)
}
