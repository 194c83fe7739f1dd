import { mkdir, writeFile } from 'node:fs/promises'
import { dirname } from 'node:path'
import { generatedFiles } from './generated.ts'

/** Writes the schemas, the pages on rules, constants and licenses, and the kernels' module; run in the repository's root. */
for (const [path, text] of await generatedFiles()) {
  await mkdir(dirname(path), { recursive: true })
  await writeFile(path, text)
}
