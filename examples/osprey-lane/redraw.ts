import { mkdir, rm, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { drawPortrait } from '../drawing/portrait.ts'
import { SITTERS } from '../drawing/sitters.ts'
import { type Deliverable, fileName, OUTPUTS, pictureOf } from './house-style.ts'
import { PLANTED } from './planted.ts'
import { saved } from './saving.ts'
import { spoilt } from './spoiling.ts'

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
  for (const delivery of ['delivery-clean', 'delivery-faulty']) {
    await rm(join(folder, delivery), { recursive: true, force: true })
  }
  for (const sitter of SITTERS.filter(({ staffId }) => DELIVERED.includes(staffId))) {
    const picture = await drawPortrait(sitter.look, pictureOf(sitter))
    for (const deliverable of DELIVERABLES) {
      const clean = await saved(picture, sitter, OUTPUTS[deliverable], 'jpeg')
      await write(join(folder, 'delivery-clean', fileName(deliverable, sitter)), clean)
      const planted = PLANTED.find(
        (fault) => fault.family === sitter.family && fault.deliverable === deliverable,
      )
      const name = fileName(deliverable, sitter, planted?.staffId)
      await write(
        join(folder, 'delivery-faulty', name),
        planted === undefined ? clean : await spoilt(planted, sitter, picture),
      )
    }
  }
  const list = PLANTED.map(({ family, deliverable, fault, rules, staffId }) => {
    const sitter = SITTERS.find((candidate) => candidate.family === family)
    return { file: sitter === undefined ? '' : fileName(deliverable, sitter, staffId), fault, rules }
  })
  const text = JSON.stringify(list, null, 2).replace(
    /\[\s+("[^[\]]*")\s+\]/g,
    (_, rules: string) => `[${rules.replace(/\s+/g, ' ')}]`,
  )
  await write(join(folder, 'planted.json'), Buffer.from(`${text}\n`))
}

async function write(path: string, bytes: Buffer): Promise<void> {
  await mkdir(dirname(path), { recursive: true })
  await writeFile(path, bytes)
}

await redraw(process.argv[2] ?? 'examples/osprey-lane')
