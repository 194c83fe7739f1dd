import { writeFile } from 'node:fs/promises'
import process from 'node:process'
import { parseArgs } from 'node:util'
import { TOLD } from '../src/measure/head/chin.ts'
import { drawnExamples, folderExamples, packageExamples } from './chin/examples.ts'
import { type HeldOut, heldOut } from './chin/held-out.ts'
import { fitWeights } from './chin/logit.ts'

/**
 * Fits what the chin is read by to the drawn sitters, the marked photographs of packages and a folder of marked
 * portraits, and prints how portraits are read by weights that were fitted without their sitters.
 *
 *     npm run fit:chin -- --marked FOLDER            # a folder with marks.json
 *     npm run fit:chin -- --marked FOLDER --write    # writes src/measure/head/chin-weights.ts too
 */
const { values } = parseArgs({
  options: { marked: { type: 'string' }, write: { type: 'boolean', default: false } },
})
const DIGITS = 3
const FILE = 'src/measure/head/chin-weights.ts'

const examples = [
  ...(values.marked === undefined ? [] : await folderExamples(values.marked)),
  ...(await packageExamples()),
  ...(await drawnExamples()),
]
const read = heldOut(examples)
for (const set of new Set(examples.map((one) => one.set)))
  print(
    set,
    read.filter(({ example }) => example.set === set),
  )
const weights = fitWeights(examples).map((weight) => Number(weight.toFixed(DIGITS)))
if (values.write) await writeFile(FILE, fileOf(weights))
else process.stdout.write(`${weights.join(', ')}\n`)

function print(set: string, of: readonly HeldOut[]): void {
  const errors = of.map(({ error }) => Math.abs(error))
  const told = of.map(({ spread }) => TOLD * spread)
  const held = of.filter(({ error, spread }) => Math.abs(error) <= TOLD * spread).length
  const bias = of.reduce((sum, { error }) => sum + error, 0) / of.length
  process.stdout.write(
    `${set} (${of.length}), % of the frame height: bias ${bias.toFixed(2)}, mean error ${mean(errors)}, 90 % ${at(errors, 0.9)}, ` +
      `99 % ${at(errors, 0.99)}, largest ${at(errors, 1)}; told ${at(told, 0.5)} in the median, which holds ${held} of ${of.length}; ` +
      `95 % are within ${at(
        of.map(({ error, spread }) => Math.abs(error) / spread),
        0.95,
      )} spreads\n`,
  )
  for (const { example, error, spread } of of
    .toSorted((a, b) => Math.abs(b.error) - Math.abs(a.error))
    .slice(0, 5))
    process.stdout.write(`  ${example.name}: ${error.toFixed(2)}, told ${(TOLD * spread).toFixed(2)}\n`)
}

function mean(numbers: readonly number[]): string {
  return (numbers.reduce((sum, value) => sum + value, 0) / numbers.length).toFixed(2)
}

function at(numbers: readonly number[], share: number): string {
  const sorted = numbers.toSorted((a, b) => a - b)
  return (sorted[Math.ceil(share * sorted.length) - 1] ?? 0).toFixed(2)
}

function fileOf(numbers: readonly number[]): string {
  return `/**
 * What each kind of evidence of \`chinEvidence\` weighs. Written by npm run fit:chin.
 * @tuned on ${values.marked === undefined ? '' : `${count('marked folder')} photographs with published marks (Face Research Lab London Set, doi:10.6084/m9.figshare.5047666.v5), `}${count('photographs of packages')} photographs of npm packages marked by hand and ${count('drawn sitters')} portraits of drawn sitters.
 */
export const CHIN_WEIGHTS: readonly number[] = [
${numbers.map((value) => `  ${value},\n`).join('')}]
`
}

function count(set: string): number {
  return examples.filter((one) => one.set === set).length
}
