import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { SITTERS } from '../../../examples/drawing/sitters.ts'
import { drawnPortrait } from '../../drawn.ts'
import { roundTrip, type Step } from './round-trip.ts'

/*
 * Drawn masters on their way to the website, with a fault of each kind planted at each step: what is told must be what was planted. On
 * photographs: npm run round-trip -- FOLDER.
 */
const PEOPLE = 4

let folder: string
let steps: Step[]
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'round-trip-'))
  await mkdir(join(folder, 'masters'))
  for (const [i, { look, staffId }] of SITTERS.slice(0, PEOPLE + 1).entries()) {
    const { pixels, widthPx, heightPx } = await drawnPortrait(look, {
      ...{ widthPx: 640, heightPx: 720, placement: { crownY: 0.16, chinY: 0.56 }, offsetX: 0.02 },
      ...{ backdrop: { color: 245 }, key: { side: 'left', ratioStops: 0.6 } },
    })
    const picture = sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    const place = i < PEOPLE ? join('masters', `${staffId}.png`) : 'other.png'
    await writeFile(join(folder, place), await picture.png().withIccProfile('srgb').toBuffer())
  }
  steps = await roundTrip({
    ...{ folder, ending: 'png', other: join(folder, 'other.png') },
    people: SITTERS.slice(0, PEOPLE).map(({ staffId }) => staffId),
  })
})
afterAll(() => rm(folder, { recursive: true, force: true }))

test('all that is planted at each step is told, and nothing else', () => {
  for (const { step, planted, told } of steps)
    expect([step, [...told].sort()]).toEqual([step, [...planted].sort()])
  expect(steps.flatMap(({ planted }) => planted).length).toBeGreaterThan(20)
})
