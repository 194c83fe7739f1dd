import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'
import { beforeAll, describe, expect, test } from 'vitest'
import { decodePicture } from '../../../src/measure/decode.ts'
import { loadFaceModel } from '../../../src/measure/face-model.ts'
import { findFaces } from '../../../src/measure/find-faces.ts'
import { measureFocus } from '../../../src/measure/focus/eye-focus.ts'
import type { IrisCenter } from '../../../src/measure/iris-model.ts'
import type { Face, Focus } from '../../../src/measure/measurements.ts'
import type { RgbPicture } from '../../../src/measure/rgb-picture.ts'
import { packageFolder } from '../../outside/portraits.ts'
import { GOOD } from '../../rules/cases.ts'
import { blurred, type Eyes, eyesOf } from './drawn-eyes.ts'

const FACE = GOOD.face as Face

/** The eyes of a photograph from a public npm package. */
async function photographed(source: string, path: string): Promise<Eyes> {
  const picture = await decodePicture(await readFile(join(await packageFolder(source), path)), 1e8)
  const found = await findFaces(await loadFaceModel(), picture)
  if (!found?.largest) throw new Error(`No face was found in ${path}.`)
  const [left, right] = found.largest.irises
  return eyesOf(picture, [left, right])
}

function focus({ irises }: Eyes, picture: RgbPicture): Focus {
  return measureFocus(picture, irises, [], FACE)
}

const agency = (n: number) => ['startbootstrap-agency', `dist/assets/img/team/${n}.jpg`] as const
const argon = (name: string) => ['argon-design-system-free', `assets/img/faces/${name}.jpg`] as const
const soft = (n: number) => ['soft-ui-design-system', `assets/img/team-${n}.jpg`] as const
const material = (name: string) => ['material-kit', `assets/img/faces/${name}.jpg`] as const

/** Photographs that may be off by more. */
const WIDER: Readonly<Record<string, number>> = {
  // Neon tubes reflected by a lens: lines before the eye, no edges.
  'assets/img/faces/kendall.jpg': 0.25,
  // Only at the widest blur, 6 px at 240 px.
  'assets/img/team-1.jpg': 0.16,
}

// Every photograph of these packages with a face of 50 px or more between the eyes, but for one with glasses too dark to
// see an eye through.
const PHOTOGRAPHS = [
  agency(1),
  agency(2),
  agency(3),
  ...['ali-pazani', 'atikh', 'christian', 'fezbot', 'team-2', 'team-3', 'team-4'].map(argon),
  ...['camp', 'card-profile2-square', 'kendall', 'marc'].map(material),
  soft(1),
  soft(2),
  soft(3),
]

describe.each(PHOTOGRAPHS)('the eyes of %s %s', (source, path) => {
  let eyes: Eyes
  beforeAll(async () => {
    eyes = await photographed(source, path)
  })

  // Their own spread is not known but by the reading itself; what blurs add up to is.
  test('blurred again by 1 to 3 px of the file, up to 6 px at 240 px, are read as what the blurs add up to', async () => {
    const own = focus(eyes, eyes.picture).finestEdgePx ?? Number.NaN
    let before = own
    for (const sigma of [1, 1.25, 1.5, 2, 3].filter((sigma) => sigma <= 6 * eyes.scale)) {
      const reading = focus(eyes, await blurred(eyes.picture, sigma)).finestEdgePx ?? Number.NaN
      expect(reading, `${sigma} px`).toBeGreaterThan(before)
      expect(Math.abs(reading / Math.hypot(own, sigma) - 1), `${sigma} px`).toBeLessThan(WIDER[path] ?? 0.15)
      before = reading
    }
  })

  test('enlarged to twice their size have no edge as fine as pixels show', async () => {
    const { data, width, height } = eyes.picture
    const twice = await sharp(data, { raw: { width, height, channels: 3 } })
      .resize(2 * width, 2 * height, { kernel: 'cubic' })
      .raw()
      .toBuffer()
    const irises = eyes.irises.map(([x, y]): IrisCenter => [2 * x + 0.5, 2 * y + 0.5])
    const enlarged = {
      picture: { data: twice, width: 2 * width, height: 2 * height },
      irises: irises as [IrisCenter, IrisCenter],
      scale: 2 * eyes.scale,
    }
    const finest = focus(enlarged, enlarged.picture).finestEdgePx
    expect(finest).toBeGreaterThan(0.7)
  })
})
