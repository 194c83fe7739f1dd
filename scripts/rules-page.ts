import { keySentence, optionsText } from '../src/brand-spec/options.ts'
import { KNOWN_FIELDS } from '../src/naming/naming-problems.ts'
import { type AnyRule, alwaysRuns } from '../src/rules/contract/delivery-rule.ts'
import { STAGE_TEXTS } from '../src/rules/contract/stage.ts'

/** The page on the rules and the naming of files, in Markdown, from the texts that `explain` shows. */
export function rulesPage(rules: readonly AnyRule[]): string {
  const contents = rules.map(({ id, text }) => `- [\`${id}\`](#${id}): ${plain(text.title)}`)
  return [...INTRODUCTION, '', ...contents, '', ...NAMING, '', ...rules.flatMap(section)].join('\n')
}

const INTRODUCTION = [
  '<!-- Generated from the texts in src/rules; change them there and run: npm run generate -->',
  '',
  '# Rules',
  '',
  'A rule runs where the brand spec names it, in general or for a deliverable; what a deliverable sets replaces the',
  'general setting of that rule whole, and `false` switches a rule off. Rules under `advisory` only warn.',
  'The same texts are shown by `portrait-gate explain`.',
]

const NAMING = [
  '## Naming of files',
  '',
  '```yaml',
  'naming:',
  '  pattern: "{deliverable}/{family}-{given}_{staff-id}.jpg"',
  '  fields:',
  '    staff-id: { digits: 5 }',
  '```',
  '',
  'The pattern describes the end of a path: as many folders as it has, and the file name. Folders above those do not',
  'count, and a folder of the delivery checked alone gives the same answer as the whole delivery. Fixed text must stand',
  'in the name as in the pattern, capital and small letters included. A field stands for one character or more, never',
  'for a `/`. Between two fields there must be some text.',
  '',
  ...Object.entries(KNOWN_FIELDS).map(([field, meaning]) => `- \`{${field}}\`: ${meaning}`),
  '- any other name that is declared under `fields`, such as `department: {}`',
  '',
  'Under `fields` stands what a field may hold:',
  '',
  '- `{ digits: 5 }` or `{ digits: { min: 4, max: 6 } }`: digits 0 to 9 only, and how many',
  '- `{ one-of: [surgery, front-desk] }`: one of these values, as written',
  '- `{ case: lower, max-length: 20 }`: any text, in small (`lower`) or capital (`upper`) letters, of at most so many characters',
  '- `{}`: any text',
  '',
  'When a separator also stands within a name there are several readings: `Smith-Jones-Anna` is read',
  '`{family}-{given}` as Smith-Jones and Anna first, since an earlier field takes the longer text, and as Smith and',
  'Jones-Anna second. Readings in which all fields hold what they may are preferred. A separator that no name has, such',
  'as `_`, leaves one reading only.',
  '',
  'A file belongs to the deliverable that its field `{deliverable}` names. Without that field in the pattern the',
  'deliverable is known only when the spec has exactly one; with several it stays unknown and the general settings',
  'hold. It is never guessed from the size of the picture, since the size is what is to be judged.',
]

function section(rule: AnyRule): string[] {
  const { id, text } = rule
  const { takes, about, keys } = optionsText(rule)
  return [
    `## \`${id}\``,
    '',
    `**${plain(text.title)}.** ${plain(text.measures)}`,
    '',
    `Decided by: ${STAGE_TEXTS[rule.dependsOn]}`,
    '',
    `Why: ${plain(text.why)}`,
    '',
    '```yaml',
    ...text.example.split('\n'),
    '```',
    '',
    [
      `Takes ${plain(takes)}.`,
      plain(about),
      alwaysRuns(rule) ? 'Runs even when the spec does not name it.' : '',
    ]
      .filter((sentence) => sentence !== '')
      .join(' '),
    '',
    ...(keys.length > 0 ? [...keys.map((key) => `- \`${key.name}\`: ${plain(keySentence(key))}`), ''] : []),
    `Fix: ${plain(text.fix)}`,
    '',
  ]
}

/** Text in which only backticks mean something: `C*ab` is no emphasis. */
function plain(text: string): string {
  return text.replace(/[*_<[\]\\]/g, '\\$&')
}
