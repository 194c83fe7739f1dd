import { rm } from 'node:fs/promises'
import { compiledCode } from './package/compiled.ts'
import { packageContents } from './package/contents.ts'
import { writeInto } from './package/write.ts'

/** Makes `bundle`: what the package holds beside its pages. Run in the repository's root when it is built. */
const FOLDER = 'bundle'

await rm(FOLDER, { recursive: true, force: true })
const contents = await packageContents('dist/src')
await writeInto(FOLDER, new Map([...contents, ...(await compiledCode(contents))]))
