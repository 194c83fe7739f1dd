import { link, mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'
import type { Frame } from '../../examples/drawing/frame.ts'
import type { Look } from '../../examples/drawing/look.ts'
import { drawPortrait } from '../../examples/drawing/portrait.ts'
import { SITTERS } from '../../examples/drawing/sitters.ts'
import { pictureOf } from '../../examples/osprey-lane/house-style.ts'

/** Of each portrait; as many as a camera of 24 megapixels leaves of an upright crop, and more than most sites show. */
export const WIDTH = 2400
export const HEIGHT = 3000

// Grain in codes (standard deviation), about that of a studio camera at a middle sensitivity (from memory); without it a
// drawn portrait is a fifth of the size of a photograph.
const GRAIN = 2.5

/** File names of the corpus, by the naming pattern of the bench's spec. */
export function nameOf(index: number): string {
  return `Sitter-${String(index + 1).padStart(5, '0')}.jpg`
}

/**
 * Draws as many portraits of different people, each 2400 x 3000 px with an sRGB profile and grain; what is there
 * already stays. The sitters are mixed from the features of the example's.
 * @param told called before each portrait that has to be drawn
 */
export async function drawCorpus(
  folder: string,
  count: number,
  told: (index: number) => void,
): Promise<void> {
  await mkdir(folder, { recursive: true })
  const there = new Set(await readdir(folder))
  for (let index = 0; index < count; index++) {
    const name = nameOf(index)
    if (there.has(name)) continue
    told(index)
    const part = join(folder, `${name}.part`)
    await writeFile(part, await drawn(index))
    await rename(part, join(folder, name))
  }
}

/** A delivery of `count` portraits, each a link to one of `drawn` that are there. */
export async function linkCorpus(from: string, drawn: number, to: string, count: number): Promise<void> {
  await rm(to, { recursive: true, force: true })
  await mkdir(to, { recursive: true })
  for (let index = 0; index < count; index++)
    await link(join(from, nameOf(index % drawn)), join(to, nameOf(index)))
}

/** As many files of their own, no two of one size, as portraits are: the drawn ones with comments of different lengths. */
export async function copyCorpus(from: string, drawn: number, to: string, count: number): Promise<void> {
  await rm(to, { recursive: true, force: true })
  await mkdir(to, { recursive: true })
  const sizes = new Set<number>()
  for (let index = 0; index < count; index++) {
    const file = await readFile(join(from, nameOf(index % drawn)))
    let letters = 1
    while (sizes.has(file.length + COMMENT_HEAD + letters)) letters++
    sizes.add(file.length + COMMENT_HEAD + letters)
    await writeFile(join(to, nameOf(index)), commented(file, letters))
  }
}

// Of a comment in JPEG: its marker and its length, which counts itself (ITU-T T.81, B.2.4.5); and the marker of a scan.
const [COMMENT_HEAD, COMMENT, SCAN] = [4, 0xfe, 0xda]

/** A JPEG with a comment of so many letters before its first scan. */
function commented(file: Buffer, letters: number): Buffer {
  let at = 2
  while (file[at + 1] !== SCAN) at += 2 + file.readUInt16BE(at + 2)
  const head = Buffer.from([0xff, COMMENT, 0, 0])
  head.writeUInt16BE(2 + letters, 2)
  return Buffer.concat([file.subarray(0, at), head, Buffer.alloc(letters, 'a'), file.subarray(at)])
}

async function drawn(index: number): Promise<Buffer> {
  const sitter = SITTERS[index % SITTERS.length] as (typeof SITTERS)[number]
  const frame: Frame = { ...pictureOf(sitter), widthPx: 2800, heightPx: HEIGHT, noise: GRAIN }
  const { pixels } = await drawPortrait(mixed(index), frame)
  return sharp(pixels, { raw: { width: 2800, height: HEIGHT, channels: 3 } })
    .extract({ left: 200, top: 0, width: WIDTH, height: HEIGHT })
    .withIccProfile('srgb')
    .withExif({ IFD0: { Artist: 'Osprey Lane in-house studio', Copyright: 'Osprey Lane Veterinary Group' } })
    .jpeg({ quality: 92 })
    .toBuffer()
}

/** The head of one sitter with the hair and color of others: another one for each index below 24 x 23. */
function mixed(index: number): Look {
  const look = (step: number) => (SITTERS[(index + step) % SITTERS.length] as (typeof SITTERS)[number]).look
  const round = Math.floor(index / SITTERS.length)
  const { hair, hairColor, headwear, headwearColor, flyAways } = look(round)
  const { tone, eyes } = look(3 * round)
  return { ...look(0), seed: index + 1, hair, hairColor, headwear, headwearColor, flyAways, tone, eyes }
}
