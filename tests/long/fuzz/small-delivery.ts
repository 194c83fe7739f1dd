import { createHash } from 'node:crypto'
import { mkdir, readFile, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import sharp from 'sharp'

/** A file of a delivery. */
export interface Picture {
  /** Absolute. */
  readonly path: string
  /** Relative to the delivery's folder, with /. */
  readonly file: string
  /** Of its content, hex. */
  readonly sha256: string
}

/** Decoding and metadata are measured; faces are not, since loading the models would take most of the time. */
export const SPEC = [
  'brand: Osprey Lane Veterinary Group',
  'version: 1',
  'one-face: false',
  'color-space: sRGB',
  'metadata-required: { creator: true }',
].join('\n')

/** What a run by that spec measures. */
export const GROUPS = ['file', 'decode', 'metadata'] as const

// A file is taken for settled two seconds after its last change.
const SETTLED_MS = 2100

/** Small plain pictures in some folders, one in six of them no picture at all: measuring takes little, keeping as ever. */
export async function makeDelivery(folder: string, count: number, folders: number): Promise<Picture[]> {
  const pictures: Picture[] = []
  for (let n = 0; n < count; n++) {
    const content = n % 6 === 5 ? Buffer.from(`letter ${n}`) : await plain(n)
    pictures.push(await put(folder, `${n % folders}/${n}.jpg`, content))
  }
  return pictures
}

/** Copies under other names. */
export async function copyDelivery(pictures: readonly Picture[], folder: string): Promise<Picture[]> {
  const copies: Picture[] = []
  for (const { path, file } of pictures)
    copies.push(await put(folder, `copies/${file.replace('/', '-')}`, await readFile(path)))
  return copies
}

export async function put(folder: string, file: string, content: Buffer): Promise<Picture> {
  const path = join(folder, file)
  await mkdir(dirname(path), { recursive: true })
  await writeFile(path, content)
  return { path, file, sha256: createHash('sha256').update(content).digest('hex') }
}

/** Until a run takes down what it finds in files that were just written. */
export function settled(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, SETTLED_MS))
}

/** Each number a picture of its own. */
async function plain(n: number): Promise<Buffer> {
  const background = { r: 128 + Math.floor(n / 16), g: 8 * (n % 16), b: 90 }
  return await sharp({ create: { width: 80, height: 100, channels: 3, background } })
    .png()
    .toBuffer()
}
