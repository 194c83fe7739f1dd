import { execFile } from 'node:child_process'
import { join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { promisify } from 'node:util'

/**
 * Builds the command into a folder of its own: worker threads load their code by themselves, and Node 20 takes no types
 * out.
 * @returns the folder that holds src
 */
export async function built(name: string): Promise<string> {
  const folder = resolve('.cache', name)
  const tsc = resolve('node_modules', 'typescript', 'bin', 'tsc')
  await promisify(execFile)(process.execPath, [tsc, '-p', 'tsconfig.build.json', '--outDir', folder])
  return folder
}

/** A module of such a build. @param path from src on, ending in .js */
export function builtModule<T>(folder: string, path: string): Promise<T> {
  return import(pathToFileURL(join(folder, 'src', path)).href) as Promise<T>
}
