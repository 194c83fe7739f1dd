import { Command as Program } from 'commander'
import { keySentence, type OptionKey, optionsText } from '../brand-spec/options.ts'
import { EXIT, type Host } from '../checking/host.ts'
import { UsageError } from '../checking/usage-error.ts'
import { sideBySide } from '../report/columns.ts'
import { type AnyRule, alwaysRuns } from '../rules/contract/delivery-rule.ts'
import { STAGE_TEXTS } from '../rules/contract/stage.ts'
import { ALL_RULES } from '../rules/delivery-index.ts'
import { namesFor, OTHER_WORDS } from '../rules/other-words.ts'
import { capitalized } from '../text/capitalized.ts'
import { didYouMean } from '../text/nearest.ts'
import { listed } from '../text/quantity.ts'
import { type SpecKey, specKeys } from './explaining/spec-keys.ts'
import { parse } from './parse.ts'

// Longer lines are hard to read, shorter ones hard to lay out.
const WIDEST = 100
const NARROWEST = 40

/**
 * `explain [rule]`: the rules and what each is about, or all about one, or about a key of the spec beside them.
 * @throws UsageError when there is no such rule
 */
export async function explain(args: readonly string[], host: Host): Promise<number> {
  const program = new Program('portrait-gate explain')
    .description('Explains what a rule measures, why, what it takes in the spec, and how to fix a failure.')
    .argument('[rule...]', 'a rule, such as headroom; without one, all rules are listed', [])
  const parsed = parse(program, args, host)
  if ('exit' in parsed) return parsed.exit
  const width = Math.min(WIDEST, Math.max(NARROWEST, host.stdout.columns || 80))
  const lines =
    parsed.paths.length === 0
      ? list(width)
      : parsed.paths
          .flatMap((word) => explained(word, width))
          .flatMap((told, index) => [...(index > 0 ? [''] : []), ...told])
  host.stdout.write(`${lines.join('\n')}\n`)
  return EXIT.fine
}

/** The lines on each rule or key of a spec that a word stands for. */
function explained(word: string, width: number): string[][] {
  const key = specKeys().find(({ name }) => name === word)
  return key ? [keyLines(key, width)] : rulesNamed(word).map((rule) => all(rule, width))
}

function keyLines({ name, takes, about, keys, example }: SpecKey, width: number): string[] {
  return [
    ...paragraph(`${name}: takes ${takes}`, 0, width),
    ...section('In the spec', about, width),
    ...optionLines(keys, width),
    ...['', 'Example', `  ${example}`],
  ]
}

/** The rule of that name, or all that people mean by the word. */
function rulesNamed(id: string): readonly AnyRule[] {
  const rules = ALL_RULES.map((one) => one.id)
  const wanted = rules.includes(id) ? [id] : namesFor(id, rules)
  if (wanted.length > 0) return ALL_RULES.filter((one) => wanted.includes(one.id))
  const ids = [...rules, ...specKeys().map(({ name }) => name), ...OTHER_WORDS]
  throw new UsageError(
    `There is no rule "${id}"${didYouMean(id, ids)} See the list with: portrait-gate explain`,
  )
}

function list(width: number): string[] {
  return [
    ...columns(
      ALL_RULES.map(({ id, text }) => [id, text.title]),
      0,
      width,
    ),
    '',
    ...paragraph(`Beside rules a spec has ${listed(specKeys().map(({ name }) => name))}.`, 0, width),
    'For details: portrait-gate explain headroom',
  ]
}

function all(rule: AnyRule, width: number): string[] {
  const { id, text } = rule
  const { takes, about, keys } = optionsText(rule)
  return [
    ...paragraph(`${id}: ${text.title}`, 0, width),
    ...section('What is measured', text.measures, width),
    ...section('Decided by', capitalized(STAGE_TEXTS[rule.dependsOn]), width),
    ...section('Why', text.why, width),
    '',
    'In the spec',
    ...paragraph(`Takes ${takes}; false switches the rule off.`, 2, width),
    ...(about === '' ? [] : paragraph(about, 2, width)),
    ...optionLines(keys, width),
    ...(alwaysRuns(rule) ? paragraph('Runs even when the spec does not name it.', 2, width) : []),
    '',
    'Example',
    ...text.example.split('\n').map((line) => `  ${line}`),
    ...section('Fix', text.fix, width),
  ]
}

function optionLines(keys: readonly OptionKey[], width: number): string[] {
  return columns(
    keys.map((key) => [key.name, keySentence(key)]),
    4,
    width,
  )
}

function section(title: string, text: string, width: number): string[] {
  return ['', title, ...paragraph(text, 2, width)]
}

function paragraph(text: string, indent: number, width: number): string[] {
  return sideBySide(indent, 0, [{ text, width: width - indent }])
}

/** Rows of a name and a text; the texts begin in one column. */
function columns(rows: readonly (readonly [string, string])[], indent: number, width: number): string[] {
  const gap = 2
  const names = Math.max(...rows.map(([name]) => name.length))
  const texts = Math.max(NARROWEST / 2, width - indent - gap - names)
  return rows.flatMap(([name, text]) =>
    sideBySide(indent, gap, [
      { text: name, width: names },
      { text, width: texts },
    ]),
  )
}
