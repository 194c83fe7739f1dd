import { rm } from 'node:fs/promises'
import { packageContents } from './package/contents.ts'
import { writeInto } from './package/write.ts'

/** Makes `bundle`: what the package holds beside its pages. Run in the repository's root when it is built. */
const FOLDER = 'bundle'

await rm(FOLDER, { recursive: true, force: true })
await writeInto(FOLDER, await packageContents('dist/src'))
