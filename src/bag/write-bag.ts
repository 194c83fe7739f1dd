import { createHash } from 'node:crypto'
import { byCodePoint } from '../text/code-points.ts'
import { BAG_INFO, type BagInfo, bagInfoText } from './bag-info.ts'
import { DECLARATION } from './declaration.ts'
import { type Checksums, hashFile } from './hash-file.ts'
import { encodedPath, PAYLOAD } from './paths.ts'

/** Where a bag is written to: a folder or a zip. */
export interface BagSink {
  /** Adds a file by its path from the bag's folder on; what `write` gives to its argument is the content. */
  file(
    path: string,
    bytes: number,
    write: (chunk: (data: Buffer) => Promise<void>) => Promise<void>,
  ): Promise<void>
}

/** A file to be packed. */
export interface PackedFile {
  /** Path in the delivery, with `/`. */
  readonly file: string
  /** Absolute. */
  readonly path: string
  readonly bytes: number
  /** SHA-256 of the content that was judged, hexadecimal; null when nobody knows it. */
  readonly sha256: string | null
}

export interface BagContent {
  readonly payload: readonly PackedFile[]
  /** Tag files by path. */
  readonly tags: ReadonlyMap<string, string>
  /** What `bag-info.txt` says besides the size. */
  readonly info: BagInfo
  /** Signs the list of lists; null for no signature. */
  readonly sign: ((list: Buffer) => Promise<Buffer>) | null
}

/** A file that is no longer the one that was judged. */
export class ChangedMeanwhile extends Error {}

/** The strongest comes first; both are asked of every reader. @source RFC 8493, 2.4 */
const ALGORITHMS = ['sha512', 'sha256'] as const

/** The list that a signature stands over: it covers all other lists, and they cover all files. */
export const SIGNED = 'tagmanifest-sha512.txt'
export const SIGNATURE = `${SIGNED}.sig`

/**
 * Writes a bag of version 1.0 (RFC 8493). Names are in NFC; every file is read once, and its checksums are those of what was
 * written.
 * @throws ChangedMeanwhile; the system's error; the signal's reason when it is aborted
 */
export async function writeBag(content: BagContent, sink: BagSink, signal: AbortSignal): Promise<void> {
  const tags = new Map<string, Checksums>()
  const tag = async (path: string, text: string | Buffer) => {
    const bytes = Buffer.from(text)
    await sink.file(path, bytes.length, (chunk) => chunk(bytes))
    tags.set(path, checksumsOf(bytes))
  }
  await tag(DECLARATION, 'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n')
  const payload = new Map<string, Checksums>()
  for (const one of content.payload) {
    const path = `${PAYLOAD}${one.file.normalize('NFC')}`
    payload.set(path, await packed(one, path, sink, signal))
  }
  const size = content.payload.reduce((sum, { bytes }) => sum + bytes, 0)
  await tag(BAG_INFO, bagInfoText([...content.info, ['Payload-Oxum', `${size}.${content.payload.length}`]]))
  for (const [path, text] of content.tags) await tag(path, text)
  for (const name of ALGORITHMS) await tag(`manifest-${name}.txt`, manifestText(payload, name))
  // Tag manifests don't list one another.
  const listed = new Map(tags)
  for (const name of ALGORITHMS) {
    const list = Buffer.from(manifestText(listed, name))
    await tag(`tagmanifest-${name}.txt`, list)
    if (`tagmanifest-${name}.txt` === SIGNED && content.sign) await tag(SIGNATURE, await content.sign(list))
  }
}

async function packed(one: PackedFile, path: string, sink: BagSink, signal: AbortSignal): Promise<Checksums> {
  let checksums: Checksums | null = null
  await sink.file(path, one.bytes, async (chunk) => {
    const read = await hashFile(one.path, ALGORITHMS, signal, chunk)
    if (read?.bytes === one.bytes) checksums = read.checksums
  })
  const found = checksums as Checksums | null
  if (found === null || (one.sha256 !== null && found.sha256 !== one.sha256))
    throw new ChangedMeanwhile(one.file)
  return found
}

function checksumsOf(bytes: Buffer): Checksums {
  return Object.fromEntries(ALGORITHMS.map((name) => [name, createHash(name).update(bytes).digest('hex')]))
}

function manifestText(files: ReadonlyMap<string, Checksums>, algorithm: string): string {
  return [...files]
    .sort(([a], [b]) => byCodePoint(a, b))
    .map(([path, checksums]) => `${checksums[algorithm]}  ${encodedPath(path)}\n`)
    .join('')
}
