import { createHash } from 'node:crypto'
import { readFile, writeFile } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import sharp from 'sharp'
import type { Frame } from '../examples/drawing/frame.ts'
import type { Look } from '../examples/drawing/look.ts'
import { drawPortrait, type Portrait } from '../examples/drawing/portrait.ts'
import { hashOfFiles, keptFolder, removeOld } from './kept.ts'

const DRAWN = resolve('.cache', 'drawn')
const PICTURE = 'picture.png'
const TRUTH = 'truth.json'

/** What drawings are made by: their code, and the libraries that render them. */
const kind = hashOfFiles('examples/drawing').then((hash) => hashed(hash, JSON.stringify(sharp.versions)))
const tidied = kind.then((name) => removeOld(DRAWN, name))

/** What `drawPortrait` gives. To draw takes as long as to measure, so that each is drawn once and kept below `.cache/`. */
export async function drawnPortrait(look: Look, frame: Frame): Promise<Portrait> {
  await tidied
  let drawn: Portrait | undefined
  const name = hashed(JSON.stringify(look), JSON.stringify(frame))
  const folder = await keptFolder(join(DRAWN, await kind, name), async (parts) => {
    drawn = await drawPortrait(look, frame)
    const { pixels, widthPx: width, heightPx: height, truth } = drawn
    const picture = sharp(pixels, { raw: { width, height, channels: 3 } })
    await picture.png({ compressionLevel: 1 }).toFile(join(parts, PICTURE))
    await writeFile(join(parts, TRUTH), JSON.stringify(truth))
  })
  if (drawn) return drawn
  const { data, info } = await sharp(join(folder, PICTURE)).raw().toBuffer({ resolveWithObject: true })
  const truth = JSON.parse(await readFile(join(folder, TRUTH), 'utf8'))
  return { widthPx: info.width, heightPx: info.height, pixels: data, truth }
}

function hashed(...texts: readonly string[]): string {
  const hash = createHash('sha256')
  for (const text of texts) hash.update(`${text}\0`)
  return hash.digest('hex').slice(0, 32)
}
