import { execFile } from 'node:child_process'
import { basename, join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { promisify } from 'node:util'
import { hashOfFiles, keptFolder, removeOld } from '../kept.ts'

const SOURCES = [
  'src',
  'scripts',
  'examples',
  'tests',
  'tsconfig.json',
  'tsconfig.build.json',
  'package-lock.json',
]

const BUILDS = resolve('.cache', 'built')

let build: Promise<string> | undefined

/**
 * Builds the command, once for all tests until a source changes: worker threads load their code by themselves, and
 * Node 20 takes no types out.
 * @returns the folder that holds src
 */
export function built(): Promise<string> {
  build ??= hashOfFiles(...SOURCES).then((hash) => keptFolder(join(BUILDS, hash), compiled))
  return build
}

async function compiled(folder: string): Promise<void> {
  const tsc = resolve('node_modules', 'typescript', 'bin', 'tsc')
  // npm run typecheck looks whether the types are right, for all code.
  const options = ['-p', 'tsconfig.build.json', '--noCheck', '--outDir', folder]
  await promisify(execFile)(process.execPath, [tsc, ...options])
  // Builds of sources that are no longer so.
  await removeOld(BUILDS, basename(folder))
}

/** A module of such a build. @param path from src on, ending in .js */
export function builtModule<T>(folder: string, path: string): Promise<T> {
  return import(pathToFileURL(join(folder, 'src', path)).href) as Promise<T>
}
