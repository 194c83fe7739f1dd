import { execFile } from 'node:child_process'
import { promisify } from 'node:util'

const run = promisify(execFile)

/** What ExifTool, a reader that shares no code with the project, tells of a file; group names as it has them. */
export type Told = ReadonlyMap<string, string>

/** Reads all files of a folder at once; by file name. */
export async function readFolder(exiftool: string, folder: string): Promise<ReadonlyMap<string, Told>> {
  const args = ['-json', '-n', '-a', '-G1', '-b', '-x', 'ThumbnailImage', folder]
  // It says what it could not read on standard error and gives a code for it; what it could is there all the same.
  const { stdout } = await run(exiftool, args, { maxBuffer: 2 ** 29, timeout: 120_000 }).catch(
    (error: unknown) => {
      if (error instanceof Error && 'stdout' in error) return { stdout: String(error.stdout) }
      throw error
    },
  )
  const files: unknown = stdout.trim() === '' ? [] : JSON.parse(stdout)
  const told = new Map<string, Told>()
  for (const file of Array.isArray(files) ? files : []) {
    const tags = new Map(Object.entries(file).map(([name, value]) => [name, String(value)]))
    told.set(tags.get('System:FileName') ?? '', tags)
  }
  return told
}

/** Values of a tag in all of its groups. */
export function valuesOf(told: Told, tag: string): string[] {
  return [...told].filter(([name]) => name.endsWith(`:${tag}`)).map(([, value]) => value)
}
