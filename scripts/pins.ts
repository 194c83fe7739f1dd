import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { type Use, usesIn, wrongPin } from './pins/pins.ts'

/** Asks the repositories of all actions that are used whether the pinned commits are those of their tags. */
const FORGE = 'https://github.com'
const EXAMPLES = join('examples', 'workflows')
const files = ['action.yml', ...(await readdir(EXAMPLES)).map((name) => join(EXAMPLES, name))]
const uses = new Map<string, Use>()
for (const file of files)
  for (const use of usesIn(await readFile(file, 'utf8'))) uses.set(JSON.stringify(use), use)
const wrong = await Promise.all([...uses.values()].map((use) => wrongPin(use, FORGE)))
for (const sentence of wrong) if (sentence !== null) process.stderr.write(`${sentence}\n`)
const found = wrong.filter((sentence) => sentence !== null).length
process.stdout.write(`${uses.size} pins, ${found} wrong.\n`)
if (found > 0) process.exitCode = 1
