import { mkdir, readFile, rm, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { releaseContents } from './package/release.ts'
import { makeProgram } from './program/make-program.ts'
import { PLATFORMS } from './program/platforms.ts'
import { zipFolder } from './program/zip-folder.ts'

/**
 * Makes programs that need nothing else on the machine, as zips in `program/`: for the kinds of machine that are named, or for Linux. Run in
 * the repository's root when it is built.
 */
const FOLDER = 'program'

const named = process.argv.slice(2)
const { version } = JSON.parse(await readFile('package.json', 'utf8'))
const release = await releaseContents('dist/src')
await mkdir(FOLDER, { recursive: true })
for (const name of named.length > 0 ? named : ['linux-x64']) {
  const platform = PLATFORMS[name]
  if (!platform) throw new Error(`There is no ${name}; choose among ${Object.keys(PLATFORMS).join(', ')}.`)
  const folder = join(FOLDER, `portrait-gate-${version}-${name}`)
  await rm(folder, { recursive: true, force: true })
  await makeProgram(folder, platform, release)
  await zipFolder(folder, `${folder}.zip`)
  const { size } = await stat(`${folder}.zip`)
  process.stdout.write(`${folder}.zip (${Math.round(size / 1e6)} MB)\n`)
}
