import { join } from 'node:path'
import type { Taken } from '../arrivals/arrivals.ts'
import type { Candidate } from '../arrivals/candidate.ts'
import { FileMemory } from '../files/file-memory.ts'
import { areOneFrame, type FrameFile, formatOf, frameName } from '../frames/one-frame.ts'
import { sniff } from '../measure/file/container/sniff.ts'
import { isRaw, isRawWhole, rawContent } from '../measure/file/raw/raw-content.ts'
import { type FileContent, LIMITS, readHashed } from '../measure/file/read-file.ts'
import type { MeasurementGroup, Measurements } from '../measure/schema/measurements.ts'
import { Garbage } from '../pool/garbage.ts'
import type { Warm } from '../pool/warm.ts'
import type { FrameEntry, LeftEntry, SeenFile } from '../session-log/entry.ts'
import type { Session } from '../session-log/session.ts'
import type { Frame } from '../session-log/state.ts'
import { OneAtATime } from './one-at-a-time.ts'
import type { Previews } from './preview.ts'

export interface TakingMeans {
  readonly session: Session
  readonly measuring: Warm
  readonly previews: Previews
  readonly groups: readonly MeasurementGroup[]
  readonly signal: AbortSignal
  readonly onFrame: (entry: FrameEntry) => void
  readonly onLeft: (entry: LeftEntry) => void
}

/** Faults of a file that may only not be whole yet. */
const PASSING: readonly string[] = ['truncated', 'corrupt', 'empty', 'unreadable', 'not-a-picture']

/** Makes frames of files: each content once, and a raw file and the JPEG beside it one frame. */
export class FrameTaker {
  readonly #means: TakingMeans
  readonly #turns = new OneAtATime()
  /** Files of people who were forgotten: nothing is to be written of them again. */
  readonly #passedOver = new Set<string>()
  /** What no frame is in just now. */
  readonly #memories: FileMemory[] = []
  readonly #garbage = Garbage.ofHeap()

  constructor(means: TakingMeans) {
    this.#means = means
  }

  /** @throws the signal's reason when it is aborted; Error when the face models can't be loaded */
  async take(candidate: Candidate): Promise<Taken> {
    const memory = this.#memories.pop() ?? new FileMemory()
    try {
      return await this.#takeFrom(candidate, memory)
    } finally {
      this.#memories.push(memory)
      await this.#garbage.lookAfter()
    }
  }

  async #takeFrom(candidate: Candidate, memory: FileMemory): Promise<Taken> {
    const content = await readHashed(candidate.path, LIMITS.bytes, memory)
    if ('fault' in content || content.sha256 === null) return this.#unread(candidate, content)
    const { data, sha256 } = content
    const { file, bytes, modifiedMs } = candidate
    const seen: SeenFile = { file, bytes, modifiedMs, digest: sha256 }
    // A raw file and its JPEG arrive together, and a copy may arrive while the first is measured.
    const taken = await this.#turns.run(`name ${frameName(file)}`, () =>
      this.#turns.run(`content ${sha256}`, () => this.#takeContent(candidate, seen, data)),
    )
    await this.#means.previews.made(sha256)
    return taken
  }

  /** What pages show of a frame; made anew where it is missing and one of its files is there. Null without. */
  async picture({ digest, files }: Pick<Frame, 'digest' | 'files'>, folder: string): Promise<Buffer | null> {
    const { previews } = this.#means
    const kept = await previews.read(digest)
    if (kept) return kept
    for (const file of files) {
      const content = await readHashed(join(folder, file))
      if ('fault' in content || content.sha256 !== digest) continue
      const shown = shownContent(file, content.data)
      if (typeof shown === 'object' && 'data' in shown) return previews.make(digest, shown.data)
    }
    return null
  }

  async #takeContent(candidate: Candidate, seen: SeenFile, data: Buffer): Promise<Taken> {
    const { session } = this.#means
    const known = session.state.frameOf(seen.digest)
    if (known === null) {
      this.#passedOver.add(stampOf(candidate))
      return 'done'
    }
    const frame = known ?? this.#frameBeside({ file: seen.file, captureTime: null })
    if (frame !== null) {
      session.add({ kind: 'file', ...seen, frame })
      return 'done'
    }
    const shown = shownContent(seen.file, data)
    if (shown === 'not-whole') return 'not-whole'
    if ('why' in shown) return this.#leave(seen, shown.why)
    const measured = await this.#measure(candidate)
    const { fault, sha256 } = measured
    if (fault && PASSING.includes(fault.kind)) return 'not-whole'
    if (fault)
      return this.#leave(seen, `can't be measured (${fault.kind}${fault.detail && `: ${fault.detail}`})`)
    // It was written to meanwhile.
    if (sha256 !== (shown.sha256 ?? seen.digest)) return 'not-whole'
    const captureTime = measured.metadata?.captureTime ?? null
    const elsewhere = this.#frameBeside({ file: seen.file, captureTime })
    if (elsewhere !== null) {
      session.add({ kind: 'file', ...seen, frame: elsewhere })
      return 'done'
    }
    const entry: FrameEntry = {
      kind: 'frame',
      ...seen,
      at: new Date().toISOString(),
      measured,
      fullSize: shown.fullSize,
    }
    session.add(entry)
    this.#means.onFrame(entry)
    // What is to be changed on the set is told before there is a picture of it.
    void this.#means.previews.make(seen.digest, shown.data)
    return 'done'
  }

  /** Whether a file was dealt with before, as it is. */
  isKnown(candidate: Candidate): boolean {
    return this.#means.session.state.hasSeen(candidate) || this.#passedOver.has(stampOf(candidate))
  }

  #measure({ path, file }: Candidate): Promise<Measurements> {
    const { measuring, groups, signal } = this.#means
    return measuring.measure({ path, file, isFrame: true }, groups, signal)
  }

  #unread({ file, bytes, modifiedMs }: Candidate, content: FileContent): Taken {
    if (!('fault' in content) || content.fault.kind !== 'too-large') return 'not-whole'
    return this.#leave({ file, bytes, modifiedMs, digest: '' }, `is too large (${content.fault.detail})`)
  }

  #leave(seen: SeenFile, why: string): Taken {
    const entry: LeftEntry = { kind: 'left', ...seen, why }
    this.#means.session.add(entry)
    this.#means.onLeft(entry)
    return 'done'
  }

  /** The frame that the camera wrote in another format too. */
  #frameBeside(one: FrameFile): string | null {
    const named = this.#means.session.state.framesNamed(frameName(one.file))
    const isOther = ({ files, measured }: Frame) =>
      files.every((file) => formatOf(file) !== formatOf(one.file)) &&
      files.some((file) => areOneFrame(one, { file, captureTime: measured.metadata?.captureTime ?? null }))
    return named.find(isOther)?.digest ?? null
  }
}

function stampOf({ file, bytes, modifiedMs }: Candidate): string {
  return `${file} ${bytes} ${modifiedMs}`
}

/** What a frame is judged by and shown as; or why it is left out; or that it is not whole. */
function shownContent(
  file: string,
  data: Buffer,
): { data: Buffer; sha256: string | null; fullSize: FrameEntry['fullSize'] } | { why: string } | 'not-whole' {
  const format = sniff(data)
  if (format === null) return 'not-whole'
  if (!isRaw(file, data))
    return format === 'jpeg' || format === 'tiff'
      ? { data, sha256: null, fullSize: null }
      : { why: `is ${format.toUpperCase()}; frames are JPEG, TIFF or raw files built on TIFF` }
  if (!isRawWhole(data)) return 'not-whole'
  return rawContent(data) ?? { why: 'is a raw file in which no JPEG was found; record JPEG beside raw' }
}
