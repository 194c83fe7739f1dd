import { mkdir, rm, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { drawPortrait } from '../drawing/portrait.ts'
import { SITTERS, type Sitter } from '../drawing/sitters.ts'
import { type Deliverable, fileName, OUTPUTS, pictureOf } from './house-style.ts'
import { PLANTED } from './planted.ts'
import { saved } from './saving.ts'
import { misplace, misspelt, REDRAWN, SET_FAULTS } from './set-faults.ts'
import { type Planted, spoilt } from './spoiling.ts'

/**
 * Draws both example deliveries, byte for byte the same each time:
 * node dist/examples/osprey-lane/redraw.js [folder]
 */
const DELIVERABLES: readonly Deliverable[] = ['print', 'web']

/** The twelve whose portraits are delivered; all ten skin tones are among them. */
const DELIVERED: readonly string[] = [
  '00418',
  '01207',
  '10233',
  '10871',
  '00752',
  '11904',
  '00033',
  '12450',
  '13377',
  '00990',
  '15120',
  '15388',
]

async function redraw(folder: string): Promise<void> {
  const faulty = new Map<string, Buffer>()
  for (const delivery of ['delivery-clean', 'delivery-faulty']) {
    await rm(join(folder, delivery), { recursive: true, force: true })
  }
  for (const sitter of SITTERS.filter(({ staffId }) => DELIVERED.includes(staffId))) {
    const picture = await drawPortrait(sitter.look, pictureOf(sitter))
    for (const deliverable of DELIVERABLES) {
      const clean = await saved(picture, sitter, OUTPUTS[deliverable], 'jpeg')
      await write(join(folder, 'delivery-clean', fileName(deliverable, sitter)), clean)
      const planted = plantedIn(sitter, deliverable)
      const name = fileName(deliverable, sitter, planted?.staffId)
      faulty.set(name, planted === undefined ? clean : await spoilt(planted, sitter, picture))
    }
  }
  misplace(faulty)
  for (const [name, bytes] of faulty) await write(join(folder, 'delivery-faulty', name), bytes)
  await write(join(folder, 'planted.json'), Buffer.from(plantedText()))
}

/** All that is to be otherwise in a file of the faulty delivery; undefined when nothing is. */
function plantedIn({ family }: Sitter, deliverable: Deliverable): Planted | undefined {
  const isIt = (one: { family: string; deliverable: Deliverable }) =>
    one.family === family && one.deliverable === deliverable
  const planted = PLANTED.find(isIt)
  const redrawn = REDRAWN.find(isIt)
  if (redrawn === undefined) return planted
  const { picture } = redrawn
  return {
    ...(planted ?? { family, deliverable, fault: '', rules: [] }),
    picture: { ...planted?.picture, ...picture },
  }
}

/** What is planted, for the demo and the tests: in files, and in the delivery as a whole. */
function plantedText(): string {
  const files = PLANTED.map(({ family, deliverable, fault, rules, staffId, waived = [] }) => {
    const sitter = SITTERS.find((candidate) => candidate.family === family)
    const file = sitter === undefined ? '' : misspelt(fileName(deliverable, sitter, staffId))
    return { file, fault, rules, ...(waived.length > 0 && { waived }) }
  })
  const text = JSON.stringify({ files, delivery: SET_FAULTS }, null, 2).replace(
    /\[\s+("[^[\]{}]*")\s+\]/g,
    (_, words: string) => `[${words.replace(/\s*\n\s*/g, ' ')}]`,
  )
  return `${text}\n`
}

async function write(path: string, bytes: Buffer): Promise<void> {
  await mkdir(dirname(path), { recursive: true })
  await writeFile(path, bytes)
}

await redraw(process.argv[2] ?? 'examples/osprey-lane')
