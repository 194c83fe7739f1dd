import { rename, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import process from 'node:process'
import { drawFrame, framesOf } from '../../examples/osprey-lane/frames.ts'

/**
 * Draws the frames of a small session and puts them into a folder, one after the other: node feed.js FOLDER. A process of its own,
 * since drawing takes seconds in which nothing else gets a turn.
 */
const [folder = ''] = process.argv.slice(2)
const SITTERS = 4
const FRAMES = 5

const frames = framesOf(SITTERS, FRAMES)
for (const [n, drawn] of frames.entries()) {
  if (n === frames.length / 2)
    process.stdout.write('  (from now on the backdrop is a third of a stop darker)\n')
  const jpeg = await drawFrame(drawn)
  const path = join(folder, drawn.name)
  await writeFile(`${path}.part`, jpeg)
  await rename(`${path}.part`, path)
  const { given, family } = drawn.sitter
  process.stdout.write(`  (drew ${drawn.name} of ${given} ${family}: ${drawn.fault ?? 'nothing wrong'})\n`)
}
