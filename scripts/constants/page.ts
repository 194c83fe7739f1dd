import { dirname, relative } from 'node:path/posix'
import type { Constant } from './read.ts'

/** The page on the numbers that measuring and judging rest on, in Markdown, by the folders they are in. */
export function constantsPage(constants: readonly Constant[]): string {
  const rooms = [...new Set(constants.map(roomOf))]
  return [
    ...INTRODUCTION,
    '',
    ...TAGGED.map(
      ([tag, means]) => `- ${tag} (${constants.filter((one) => one.tag === tag).length}): ${means}`,
    ),
    '',
    ...rooms.flatMap((room) => [
      `## ${room}`,
      '',
      ...HEAD,
      ...constants.filter((one) => roomOf(one) === room).map(row),
      '',
    ]),
  ].join('\n')
}

const roomOf = ({ path }: Constant) => relative('src', dirname(path))

const INTRODUCTION = [
  '<!-- Generated from the doc comments in src; change them there and run: npm run generate -->',
  '',
  '# Constants',
  '',
  'Every number that measuring and judging rest on, folder by folder, with where it comes from. `npm run lint` fails when one is missing',
  'here: `scripts/constants/unnamed-numbers.ts` says which numbers need no name.',
]

const TAGGED = [
  ['source', 'from the publication or standard named'],
  ['tuned', 'fitted to the data named'],
  ['choice', 'decided, for the reason given'],
] as const

const HEAD = ['| constant | value | what it is | | where it comes from |', '|---|---|---|---|---|']

function row({ path, name, value, meaning, tag, origin }: Constant): string {
  const unit = unitOf(meaning)
  const stated = value === '' ? 'formula' : `\`${shortened(value)}\`${unit ? ` ${unit}` : ''}`
  return `| [\`${name}\`](../${path}) | ${cell(stated)} | ${cell(meaning)} | ${tag} | ${cell(origin)} |`
}

/** The unit that the first sentence ends with, behind a comma: `Least distance between the eyes, px.` */
function unitOf(meaning: string): string | null {
  const [sentence = ''] = meaning.split(/\.(?:\s|$)/)
  return (
    /, (px|%|degrees|stops|L\*|ΔE|bytes|codes|mm|cm|ppi|characters|[^,]*\bshares? of [^,]+)$/.exec(
      sentence,
    )?.[1] ?? null
  )
}

const shortened = (value: string) =>
  value.length > LONGEST_VALUE ? `${value.slice(0, LONGEST_VALUE)}…` : value
const cell = (text: string) => text.replaceAll('|', '\\|')

/** Longest value shown whole, characters; the code has the rest. */
const LONGEST_VALUE = 60
