import { writeFile } from 'node:fs/promises'
import process from 'node:process'
import { parseArgs } from 'node:util'
import { TOLD } from '../src/measure/head/chin.ts'
import { MEASURES, type Measure } from '../tests/accuracy/compared.ts'
import { readMarks } from '../tests/accuracy/marked-folder.ts'
import { drawnExamples, folderExamples, packageExamples } from './chin/examples.ts'
import { heldOut } from './chin/held-out.ts'
import { leftOver, sightings } from './reliability/by-marks.ts'
import { diagram, FACTORS } from './reliability/diagram.ts'
import { heldOutTold, type Reading, scaleOf, shareWithin } from './reliability/held-out.ts'
import { drawnPictures, type Measured, markedPictures } from './reliability/pictures.ts'

/**
 * Holds the errors that measurements tell against the errors found, on a folder of marked portraits and on drawn sitters,
 * and draws the reliability diagram. Chins are read by weights fitted without their sitters; on photographs, the errors told are scaled
 * by what the other sitters ask for; turn and nod are what is left when the marks' own sign of them is taken off.
 *
 *     npm run reliability -- --marked FOLDER            # a folder with marks.json
 *     npm run reliability -- --marked FOLDER --write    # writes docs/images/reliability.svg too
 */
const { values } = parseArgs({
  options: { marked: { type: 'string' }, write: { type: 'boolean', default: false } },
})
if (values.marked === undefined) throw new Error('Which folder? Give it with --marked FOLDER.')
const FILE = 'docs/images/reliability.svg'
const PHOTOGRAPHS = 'marked photographs, held out'
const DRAWN = 'drawn sitters'

const chins = new Map(
  heldOut([
    ...(await folderExamples(values.marked)),
    ...(await packageExamples()),
    ...(await drawnExamples()),
  ]).map(({ example: { name }, error, spread }) => [name, { error, told: TOLD * spread }]),
)
const marked = await markedPictures(values.marked)
const angles = await anglesLeft(values.marked, marked)
const sets = [
  [PHOTOGRAPHS, marked.map((one) => withChin(one))],
  [DRAWN, (await drawnPictures()).map((one) => withChin(one))],
] as const

const panels = (Object.keys(MEASURES) as Measure[]).map((measure) => {
  const curves = sets.map(([set, pictures]) => {
    const own = set === PHOTOGRAPHS ? angles.get(measure) : undefined
    const told = own ?? readingsOf(pictures, measure)
    const readings = set === PHOTOGRAPHS ? heldOutTold(told) : told
    tell(measure, set, told, readings)
    return {
      set,
      pictures: readings.length,
      shares: FACTORS.map((factor) => shareWithin(readings, factor)),
    }
  })
  return { title: MEASURES[measure].split(',')[0] ?? measure, curves }
})
if (values.write) await writeFile(FILE, diagram(panels))

function readingsOf(pictures: readonly Measured[], measure: Measure): Reading[] {
  return pictures.flatMap(({ sitter, compared }) =>
    compared.filter((one) => one.measure === measure).map((one) => ({ ...one, sitter })),
  )
}

/** With chin and head height as read by weights that were fitted without the sitter. */
function withChin(picture: Measured): Measured {
  const chin = chins.get(picture.name)
  if (!chin) return picture
  const crown = picture.compared.find(({ measure }) => measure === 'crown') ?? { error: 0, told: 0 }
  return {
    ...picture,
    compared: picture.compared.map((one) => {
      if (one.measure === 'chin') return { ...one, ...chin }
      if (one.measure !== 'headHeight') return one
      return { ...one, error: chin.error - crown.error, told: Math.hypot(chin.told, crown.told) }
    }),
  }
}

/** Turns and nods of the photographs whose marks tell something of them, less what they tell. */
async function anglesLeft(
  folder: string,
  pictures: readonly Measured[],
): Promise<Map<Measure, readonly Reading[]>> {
  const marks = (await readMarks(folder)).filter(({ points }) => points !== undefined)
  return new Map(
    (['turn', 'nod'] as const).map((measure) => {
      const known = marks.flatMap((mark) => {
        const picture = pictures.find(({ name }) => name === mark.file)
        const [reading] = picture ? readingsOf([picture], measure) : []
        return reading ? [{ reading, sighting: sightings(mark)[measure] }] : []
      })
      const errors = leftOver(
        known.map(({ sighting }) => sighting),
        known.map(({ reading }) => reading.error),
      )
      return [measure, known.map(({ reading }, i) => ({ ...reading, error: errors[i] as number }))]
    }),
  )
}

function tell(measure: Measure, set: string, asTold: readonly Reading[], readings: readonly Reading[]): void {
  const told = readings.map((one) => one.told).sort((a, b) => a - b)
  const errors = readings.map(({ error }) => Math.abs(error)).sort((a, b) => a - b)
  const at = (sorted: readonly number[], share: number) =>
    (sorted[Math.ceil(share * sorted.length) - 1] ?? 0).toFixed(2)
  const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length
  process.stdout.write(
    `| ${MEASURES[measure]} | ${set} | ${readings.length} | mean error ${mean.toFixed(2)}, 95 % ${at(errors, 0.95)}, largest ${at(errors, 1)} | ` +
      `told ${at(told, 0.5)} in the median | holds ${(100 * shareWithin(readings, 1)).toFixed(0)} % (as told ${(100 * shareWithin(asTold, 1)).toFixed(0)} %) | scale ${scaleOf(asTold).toFixed(2)} |\n`,
  )
}
