import { mkdir, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'

/** Writes files by their path into a folder. */
export async function writeInto(
  folder: string,
  contents: ReadonlyMap<string, Uint8Array | string>,
): Promise<void> {
  for (const [path, content] of contents) {
    await mkdir(dirname(join(folder, path)), { recursive: true })
    await writeFile(join(folder, path), content)
  }
}
