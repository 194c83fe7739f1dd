import type { Room } from './rooms.ts'

const BEGIN = '<!-- Generated from src/rooms.yaml; change it there and run: npm run generate -->'
const END = '<!-- End of what is generated -->'

/**
 * A page with the list of folders between its marks.
 * @throws Error when the page has no marks
 */
export function withRooms(page: string, rooms: readonly Room[]): string {
  const [before, rest] = page.split(`${BEGIN}\n`)
  const after = rest?.split(END)[1]
  if (before === undefined || after === undefined)
    throw new Error(`The page has no place for the list of folders, between "${BEGIN}" and "${END}".`)
  const rows = rooms.map(({ folder, business, not }) => `| ${nameOf(folder)} | ${business} | ${not} |`)
  return [
    `${before}${BEGIN}`,
    '| folder | what it is for | what it is not for |',
    '|---|---|---|',
    ...rows,
    END,
  ]
    .join('\n')
    .concat(after)
}

function nameOf(folder: string): string {
  return folder === '.' ? '`src` itself' : `\`${folder}\``
}
