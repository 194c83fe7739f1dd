import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import process from 'node:process'
import sharp from 'sharp'

/*
 * Decodes every file of a folder with sharp and does nothing else: the limit of whatever looks at pixels.
 * node decode-all.js FOLDER IN-FLIGHT THREADS-A-PICTURE PROFILE(heed|ignore)
 */
const [folder = '', inFlight = '', threads = '', profile = ''] = process.argv.slice(2)
sharp.cache(false)
sharp.concurrency(Number(threads))
const files = await readdir(folder)
let next = 0
const work = async () => {
  while (next < files.length) {
    const content = await readFile(join(folder, files[next++] as string))
    await sharp(content, { ignoreIcc: profile === 'ignore' })
      .raw()
      .toBuffer()
  }
}
await Promise.all(Array.from({ length: Number(inFlight) }, work))
