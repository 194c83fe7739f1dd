import { basename, join, resolve } from 'node:path'
import { releaseContents } from '../../scripts/package/release.ts'
import { writeInto } from '../../scripts/package/write.ts'
import { hashOfFiles, keptFolder, removeOld } from '../kept.ts'
import { built } from '../pool/built.ts'

const RELEASES = resolve('.cache', 'released')

let made: Promise<string> | undefined

/** The files of a release in a folder, made once for all tests until a source changes. */
export function released(): Promise<string> {
  made ??= hashOfFiles('action.yml', 'README.md', 'CHANGELOG.md', 'docs', 'package.json', 'schemas')
    .then(async (pages) => join(RELEASES, `${basename(await built())}-${pages.slice(0, 16)}`))
    .then((place) => keptFolder(place, release))
  return made
}

async function release(folder: string): Promise<void> {
  await writeInto(folder, await releaseContents(join(await built(), 'src')))
  await removeOld(RELEASES, basename(folder))
}
