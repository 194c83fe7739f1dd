import { markerFrom } from '../../../kernels/markers.ts'
import { MARKER } from './jpeg-markers.ts'

/** One color component of the frame header. */
export interface Component {
  readonly id: number
  /** Sampling factors, 1..4. */
  readonly h: number
  readonly v: number
  /** Which quantization table it uses. */
  readonly table: number
}

export interface Frame {
  /** Second byte of the SOFn marker. */
  readonly marker: number
  /** Bits per sample. */
  readonly precision: number
  /** As stored, before any orientation. */
  readonly width: number
  readonly height: number
  /** Where in the file the height stands. */
  readonly heightAt: number
  readonly components: readonly Component[]
}

interface AppSegment {
  readonly n: number
  readonly payload: Buffer
  /** Whether it stands before the first scan: no decoder takes a later one for a part of the header. */
  readonly inHeader: boolean
}

/** What the marker segments of a JPEG hold (ITU-T T.81 Annex B); payloads are views into the file. */
export interface JpegSegments {
  /** Null when there is none or it is malformed. */
  readonly frame: Frame | null
  /** Quantization tables by destination: 64 values each, in the zig-zag order in which they are stored. */
  readonly tables: ReadonlyMap<number, readonly number[]>
  /** The application segments APP0..APP15, in file order. */
  readonly apps: readonly AppSegment[]
  /** Payloads of the comment segments. */
  readonly comments: readonly Buffer[]
  /** How many scans there are: passes over the picture. */
  readonly scans: number
  /** How many segments there are in all; beyond {@link MAX_SEGMENTS} their payloads are not kept. */
  readonly segments: number
  /** Whether another picture begins before the EOI marker. */
  readonly nested: boolean
  /** Whether the EOI marker was reached. */
  readonly ended: boolean
  /** Bytes after the EOI marker, or after what could be read. */
  readonly trailing: number
}

/** Most segments kept. @choice of full ones, 64 KiB each, a file of the largest size that is read has 4,096. */
export const MAX_SEGMENTS = 5000

const { SOF0, SOF15, DHT, JPG, DAC, RST0, RST7, SOI, EOI, SOS, DQT, APP0, APP15, COM, TEM } = MARKER
const NO_FRAMES: readonly number[] = [DHT, JPG, DAC]

const isFrame = (marker: number) => marker >= SOF0 && marker <= SOF15 && !NO_FRAMES.includes(marker)
const isRestart = (marker: number) => marker >= RST0 && marker <= RST7
const standsAlone = (marker: number) => marker === TEM || marker === SOI || isRestart(marker)

// The container and the metadata ask for the same ones, and finding the end of a scan takes long.
const known = new WeakMap<Buffer, JpegSegments>()

/**
 * Walks the segments once from SOI to EOI; whatever comes after EOI (a second picture, a maker's trailer) is not read.
 * Never throws: a malformed or shortened file gives what could be read, and `ended: false`.
 */
export function readSegments(jpeg: Buffer): JpegSegments {
  const segments = known.get(jpeg) ?? walk(jpeg)
  known.set(jpeg, segments)
  return segments
}

function walk(jpeg: Buffer): JpegSegments {
  const tables = new Map<number, readonly number[]>()
  const apps: AppSegment[] = []
  const comments: Buffer[] = []
  let frame: Frame | null = null
  let scans = 0
  let segments = 0
  let at = 0
  let nested = false
  const read = (ended: boolean): JpegSegments => {
    return { frame, tables, apps, comments, scans, segments, nested, ended, trailing: jpeg.length - at }
  }
  for (;;) {
    const start = markerFrom(jpeg, at)
    if (start === -1) return read(false)
    const marker = jpeg[start + 1] as number
    at = start + 2
    if (marker === EOI) return read(true)
    nested ||= marker === SOI && segments > 0
    if (standsAlone(marker)) continue
    const length = at + 2 <= jpeg.length ? jpeg.readUInt16BE(at) : 0
    if (length < 2 || at + length > jpeg.length) return read(false)
    const payload = jpeg.subarray(at + 2, at + length)
    at += length
    if (marker === SOS) scans++
    if (++segments > MAX_SEGMENTS) continue
    if (marker === COM) comments.push(payload)
    else if (marker === DQT) {
      for (const [id, table] of readTables(payload)) if (scans === 0 || !tables.has(id)) tables.set(id, table)
    } else if (marker >= APP0 && marker <= APP15)
      apps.push({ n: marker - APP0, payload, inHeader: scans === 0 })
    else if (isFrame(marker)) frame ??= readFrame(marker, payload, at - payload.length)
  }
}

/** A frame header. @source ITU-T T.81, B.2.2. */
function readFrame(marker: number, payload: Buffer, start: number): Frame | null {
  if (payload.length < 6) return null
  const count = payload.readUInt8(5)
  if (count === 0 || payload.length < 6 + 3 * count) return null
  const components = Array.from({ length: count }, (_, n) => {
    const at = 6 + 3 * n
    const sampling = payload.readUInt8(at + 1)
    return { id: payload.readUInt8(at), h: sampling >> 4, v: sampling & 15, table: payload.readUInt8(at + 2) }
  })
  return {
    marker,
    precision: payload.readUInt8(0),
    height: payload.readUInt16BE(1),
    heightAt: start + 1,
    width: payload.readUInt16BE(3),
    components,
  }
}

/** Quantization tables of one DQT segment. @source ITU-T T.81, B.2.4.1: 64 values of 8 bits where Pq is 0, else of 16. */
function* readTables(payload: Buffer): Generator<[number, readonly number[]]> {
  let at = 0
  while (at < payload.length) {
    const head = payload.readUInt8(at)
    const wide = head >> 4 !== 0
    const size = wide ? 128 : 64
    const start = at + 1
    if (start + size > payload.length) return
    const value = (k: number) => (wide ? payload.readUInt16BE(start + 2 * k) : payload.readUInt8(start + k))
    const values: number[] = []
    for (let k = 0; k < 64; k++) values.push(value(k))
    yield [head & 15, values]
    at = start + size
  }
}
