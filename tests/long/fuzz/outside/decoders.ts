import { execFile } from 'node:child_process'
import type { Decodable } from '../../../../src/measure/schema/formats.ts'
import { debianTool } from '../../../outside/debian.ts'

/** Decodes a file whole with a program that is no part of the picture library: what it says against it, or null. */
export type OutsideDecoder = (path: string) => Promise<string | null>

/** A decoder of Debian for each format; null for those that are not installed, which the run's output tells. */
export function outsideDecoders(): Readonly<Record<Decodable, OutsideDecoder | null>> {
  return {
    jpeg: program('libjpeg-turbo-progs', 'djpeg', (path) => ['-strict', '-outfile', '/dev/null', path]),
    png: program('pngcheck', 'pngcheck', (path) => [path]),
    tiff: program('libtiff-tools', 'tiffcp', (path) => ['-c', 'none', path, `${path}.out`]),
    webp: program('webp', 'dwebp', (path) => ['-quiet', '-o', '/dev/null', '-pam', path]),
    avif: program('libavif-bin', 'avifdec', (path) => [path, `${path}.y4m`]),
  }
}

function program(
  debianPackage: string,
  name: string,
  args: (path: string) => readonly string[],
): OutsideDecoder | null {
  const path = debianTool(debianPackage, name)
  if (path === null) return null
  return (file) =>
    new Promise((resolve) => {
      execFile(path, [...args(file)], { timeout: 20_000 }, (error, stdout, stderr) => {
        const said = `${stdout}${stderr}`.trim().split('\n').join(' ')
        resolve(error ? `${name}: ${said || error.message}`.slice(0, 300) : null)
      })
    })
}
