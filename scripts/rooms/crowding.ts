import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path/posix'
import type { Room } from './rooms.ts'

/** Most files in one folder, those of the folders in it left out, and most lines of one file: @choice what can be looked over at once. */
const MOST_FILES = 25
const MOST_LINES = 220

/** What is wrong with the folders of src, as sentences: too full, too long, not listed, or listed and gone. */
export function crowding(root: string, rooms: readonly Room[]): string[] {
  const files = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
    .map((name) => name.replaceAll('\\', '/'))
    .filter((name) => name.endsWith('.ts'))
    .sort()
  const byFolder = new Map<string, number>()
  for (const name of files) byFolder.set(dirname(name), (byFolder.get(dirname(name)) ?? 0) + 1)
  const listed = new Set(rooms.map(({ folder }) => folder))
  return [
    ...[...byFolder.keys()]
      .filter((folder) => !listed.has(folder))
      .map((folder) => `src/${folder} has no line in src/rooms.yaml; say there what it is for and what not.`),
    ...[...listed]
      .filter((folder) => !byFolder.has(folder))
      .map((folder) => `src/rooms.yaml lists ${folder}, which holds no code; take its line out.`),
    ...[...byFolder]
      .filter(([, count]) => count > MOST_FILES)
      .map(([folder, count]) => `src/${folder} has ${count} files; at most ${MOST_FILES}: divide it.`),
    ...files.flatMap((name) => tooLong(root, name)),
  ]
}

function tooLong(root: string, name: string): string[] {
  const lines = readFileSync(join(root, 'src', name), 'utf8').split('\n').length - 1
  return lines > MOST_LINES
    ? [`src/${name} has ${lines} lines; at most ${MOST_LINES}: divide it by what it does.`]
    : []
}
