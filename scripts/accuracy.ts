import process from 'node:process'
import { parseArgs } from 'node:util'
import { type Accuracy, evaluateDrawn, evaluateReal } from '../tests/accuracy/evaluate.ts'
import { evaluateGroups } from '../tests/accuracy/evaluate-groups.ts'
import { evaluateMarked } from '../tests/accuracy/evaluate-marked.ts'
import { evaluatePhotographs } from '../tests/accuracy/evaluate-photographs.ts'
import { tables } from '../tests/accuracy/judged.ts'
import { tableLines } from '../tests/accuracy/table-lines.ts'
import { UNPLAIN_MARKS } from '../tests/outside/unplain-marks.ts'
import { markedLines } from './accuracy/marked-lines.ts'

/**
 * Prints the error of every drawn and every marked real portrait, by skin tone and hair group; then what became of each
 * rule's verdicts by skin tone, hair, headwear and beard, and which groups are over 1.5 times the mean.
 *
 *     npm run accuracy
 *     npm run accuracy -- --marked FOLDER    # only the photographs of a folder with marks.json
 */
const { values } = parseArgs({ options: { marked: { type: 'string' } } })
if (values.marked === undefined) await printOwnSets()
else for (const line of markedLines(await evaluateMarked(values.marked))) print(line)

/** "38 of 38 that are sure" */
function withinTold(results: readonly Accuracy[]): string {
  const sure = results.filter((one) => one.sure)
  const within = sure.filter(({ crownError, crownTold }) => Math.abs(crownError ?? 99) <= (crownTold ?? 0))
  return `${within.length} of ${sure.length} that are sure`
}

async function printOwnSets(): Promise<void> {
  const sets = [
    ['Drawn sitters (truth by construction)', await evaluateDrawn()],
    ['Photographs from public npm packages (marked by hand, good to about 0.5)', await evaluateReal()],
    ['Portraits before rooms and streets (marked by hand)', await evaluateReal(UNPLAIN_MARKS)],
  ] as const

  for (const [title, results] of sets) {
    print(`\n${title}: ${results.length}\n`)
    print(row('portrait', 'skin', 'hair', 'plain', 'crown', 'eye line', 'chin', 'L*', 'even', 'doubts'))
    for (const one of results) {
      const {
        name,
        skin,
        hair,
        plain,
        crownError,
        eyeLineError,
        chinError,
        lightnessError,
        unevennessRatio,
        doubts,
      } = one
      print(
        row(
          name,
          skin,
          hair,
          plain ? 'yes' : 'no',
          signed(crownError),
          signed(eyeLineError),
          signed(chinError),
          signed(lightnessError),
          unevennessRatio === null ? '' : unevennessRatio.toFixed(2),
          doubts.join(', '),
        ),
      )
    }
    print(
      `\nunsure: ${results.filter(({ sure }) => !sure).length} of ${results.length}; crowns within their error: ${withinTold(results)}`,
    )
    const plain = results.filter((one) => one.plain)
    for (const [kind, key] of [
      ['skin', (one: Accuracy) => one.skin],
      ['hair', (one: Accuracy) => one.hair],
      ['all', () => 'all'],
    ] as const) {
      print(
        `\nPlain backdrops by ${kind}: n, unsure, mean absolute error of those sure: crown, eye line, chin (% of height)`,
      )
      for (const group of [...new Set(plain.map(key))].sort()) {
        const members = plain.filter((one) => key(one) === group)
        const sure = members.filter((one) => one.sure)
        print(
          `  ${group.padEnd(8)} ${String(members.length).padStart(3)} ${String(members.length - sure.length).padStart(3)}  ` +
            `${meanAbs(sure.map((one) => one.crownError))}  ${meanAbs(sure.map((one) => one.eyeLineError))}  ${meanAbs(sure.map((one) => one.chinError))}`,
        )
      }
    }
  }

  print(
    '\nVerdicts on drawn sitters, ten skin tones under seven kinds of hair and headwear (truth by construction)',
  )
  for (const table of tables(await evaluateGroups())) for (const line of tableLines(table, true)) print(line)
  print('\nVerdicts on the marked photographs: too few to tell groups apart')
  for (const table of tables(await evaluatePhotographs()))
    for (const line of tableLines(table, false)) print(line)
}

function row(...cells: string[]): string {
  const widths = [52, 7, 8, 6, 7, 9, 7, 7, 6]
  return cells
    .map((cell, i) => cell.padEnd(widths[i] ?? 0))
    .join('')
    .trimEnd()
}

function signed(error: number | null): string {
  return error === null ? '' : `${error < 0 ? '-' : '+'}${Math.abs(error).toFixed(2)}`
}

function meanAbs(errors: readonly (number | null)[]): string {
  const known = errors.filter((error) => error !== null)
  if (known.length === 0) return ' -  '
  return (known.reduce((sum, error) => sum + Math.abs(error), 0) / known.length).toFixed(2)
}

function print(line: string): void {
  process.stdout.write(`${line}\n`)
}
