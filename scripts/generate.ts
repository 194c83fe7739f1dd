import { mkdir, writeFile } from 'node:fs/promises'
import { dirname } from 'node:path'
import { generatedFiles } from './generated.ts'

/** Writes the schemas and the pages on the rules and the licenses; run in the repository's root. */
for (const [path, text] of generatedFiles()) {
  await mkdir(dirname(path), { recursive: true })
  await writeFile(path, text)
}
