import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { decodePicture } from '../../../src/measure/file/decode.ts'
import { measurePicture } from '../../../src/measure/picture.ts'
import { SURE } from '../../../src/measure/schema/confidence.ts'
import type { Finish } from '../../../src/measure/schema/measurements.ts'
import { packageFolder } from '../../outside/portraits.ts'

const MAX_PCT = 3

async function finishOf(source: string, path: string): Promise<Finish> {
  const content = await readFile(join(await packageFolder(source), path))
  const { finish } = await measurePicture(await decodePicture(content, 1e8), ['finish'])
  if (!finish) throw new Error(`${path} was not measured.`)
  return finish
}
const agency = (n: number) => ['startbootstrap-agency', `dist/assets/img/team/${n}.jpg`] as const
const argon = (name: string) => ['argon-design-system-free', `assets/img/faces/${name}.jpg`] as const
const soft = (n: number) => ['soft-ui-design-system', `assets/img/team-${n}.jpg`] as const

// Photographs from public npm packages; what is expected was seen by eye on enlargements.
describe('lens glare on photographs agrees with the eye', () => {
  test.each([
    ['greenish reflections on one lens', agency(1), true],
    ['a window on one lens', soft(3), true],
    ['spectacles that reflect hardly anything', agency(3), false],
    ['no spectacles, hair over one eye', argon('fezbot'), false],
    ['no spectacles, a cap', argon('christian'), false],
    ['no spectacles, a hard key light', ['material-kit', 'assets/img/faces/marc.jpg'], false],
  ] as const)('%s', async (_, [source, path], glare) => {
    const { lensGlarePct, lensGlare } = await finishOf(source, path)
    expect(lensGlare.confidence, lensGlare.doubts.join()).toBeGreaterThanOrEqual(SURE)
    expect(lensGlarePct).not.toBeNull()
    expect((lensGlarePct ?? 0) > MAX_PCT, `${lensGlarePct} %`).toBe(glare)
  })

  test.each([
    ['sunglasses', argon('team-1'), 'lenses-dark'],
    ['a picture in gray', argon('michael'), 'skin-colorless'],
  ] as const)('%s are left to a person', async (_, [source, path], doubt) => {
    const { lensGlare } = await finishOf(source, path)
    expect(lensGlare.doubts).toContain(doubt)
    expect(lensGlare.confidence).toBeLessThan(SURE)
  })
})
