import { join } from 'node:path'
import { byCodePoint } from '../text/code-points.ts'
import { hashFile } from './hash-file.ts'
import type { Manifest } from './manifest.ts'
import type { Findings } from './problem.ts'

interface Content {
  readonly folder: string
  readonly matched: readonly {
    readonly manifest: Manifest
    /** Paths of the entries by those of the files. */
    readonly files: ReadonlyMap<string, string>
  }[]
  readonly signal: AbortSignal
}

interface Wanted {
  readonly algorithm: string
  readonly checksum: string
}

/** Reads every listed file once and compares all its checksums. */
export async function checkContent({ folder, matched, signal }: Content, findings: Findings): Promise<void> {
  const wanted = new Map<string, Wanted[]>()
  for (const { manifest, files } of matched)
    for (const [file, entry] of files) {
      const checksum = manifest.entries.get(entry) ?? ''
      wanted.set(file, [...(wanted.get(file) ?? []), { algorithm: manifest.algorithm.name, checksum }])
    }
  for (const [file, all] of [...wanted].sort(([a], [b]) => byCodePoint(a, b))) {
    const algorithms = [...new Set(all.map(({ algorithm }) => algorithm))]
    const found = await hashFile(join(folder, file), algorithms, signal).catch((error: unknown) => {
      signal.throwIfAborted()
      return error instanceof Error && 'code' in error ? String(error.code) : String(error)
    })
    if (found === null || typeof found === 'string')
      findings.problem(
        'unreadable',
        file,
        `The file could not be read (${found ?? 'it is no regular file'}).`,
      )
    else if (all.some(({ algorithm, checksum }) => found.checksums[algorithm] !== checksum))
      findings.problem(
        'changed',
        file,
        'It is not the file that was packed: its checksum differs. Ask the sender for it again.',
      )
  }
}
