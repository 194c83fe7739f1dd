import { join } from 'node:path'
import process from 'node:process'
import { measure } from '../../../src/measure/measure.ts'
import { SURE } from '../../../src/measure/schema/confidence.ts'
import { duplicatePicture } from '../../../src/rules/delivery/duplicate-picture.ts'
import { PORTRAIT_MARKS } from '../../../tests/outside/portrait-marks.ts'
import { packageFolder } from '../../../tests/outside/portraits.ts'
import { deliveryOf, portrait } from '../../../tests/rules/delivery/deliveries.ts'
import { nameOf } from '../corpus.ts'
import { CORPUS, type Ground } from '../ground.ts'
import { madeUp, type Shown } from '../made-up.ts'

/** Portraits of each kind that are measured. */
const MEASURED = 40
/** Portraits of a small delivery, which is compared beside the large one. */
const FEW = 1000
/** Largest turn and nod of a face that counts as looking ahead, degrees, as staff portraits do. */
const AHEAD_DEG = 20

/** Each portrait of a delivery held against those of all others, by made-up signatures: half from photographs, half from drawn sitters. */
export async function duplicates({ most, say }: Ground): Promise<string> {
  say('Measuring what deliveries are made up from')
  const drawn = await shownIn(Array.from({ length: MEASURED }, (_, i) => join(CORPUS, nameOf(i))))
  const photographs = await shownIn(await Promise.all(PORTRAIT_MARKS.map(pathOf)))
  const rows = [FEW, most].map((count) => {
    say(`Comparing ${count} portraits`)
    const shown = [...madeUp(drawn, count / 2), ...madeUp(photographs, count / 2)]
    const { found, seconds, cpuSeconds } = judged(shown)
    return `| ${count} | ${pairsOf(count)} | ${found} | **${seconds.toFixed(1)}** | ${cpuSeconds.toFixed(1)} |`
  })
  return `## Pictures delivered twice: \`duplicate-picture\` alone

| portraits | pairs | found | s | processor time, s |
| --: | --: | --: | --: | --: |
${rows.join('\n')}

Half of the signatures are made up from those of ${drawn.length} drawn sitters and half from those of ${photographs.length} photographs: blended in twos, each under slow random
waves of light and dark. All cores share in it.
`
}

async function pathOf({ source, path }: (typeof PORTRAIT_MARKS)[number]): Promise<string> {
  return join(await packageFolder(source), path)
}

async function shownIn(paths: readonly string[]): Promise<Shown[]> {
  const shown: Shown[] = []
  for (const path of paths) {
    if (shown.length === MEASURED) break
    const { face, signature } = await measure({ path, file: path }, ['face', 'signature'])
    const isAhead = [face?.turnDeg, face?.nodDeg].every((deg) => Math.abs(deg ?? Infinity) <= AHEAD_DEG)
    if (face && signature?.face && isAhead && face.confidence >= SURE) shown.push({ face, signature })
  }
  return shown
}

function pairsOf(portraits: number): number {
  return (portraits * (portraits - 1)) / 2
}

function judged(shown: readonly Shown[]) {
  const files = shown.map((rest, i) => portrait(`Sitter ${i}`, 'print', { rest }))
  const before = process.cpuUsage()
  const began = performance.now()
  const findings = duplicatePicture.judge(deliveryOf(files), 'none')
  const { user, system } = process.cpuUsage(before)
  return {
    found: findings.filter(({ verdict }) => verdict !== 'pass').length,
    seconds: (performance.now() - began) / 1000,
    cpuSeconds: (user + system) / 1e6,
  }
}
