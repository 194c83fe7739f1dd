import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import type { Look } from '../../../examples/drawing/look.ts'
import { drawPortrait } from '../../../examples/drawing/portrait.ts'
import { SITTERS } from '../../../examples/drawing/sitters.ts'
import type { RgbPicture } from '../../../src/imaging/rgb-picture.ts'
import { measureFace } from '../../../src/measure/face/face.ts'
import type { Pixel } from '../../../src/measure/face/face-axes.ts'
import { findFaces } from '../../../src/measure/face/find-faces.ts'
import { loadFaceModel } from '../../../src/measure/face/networks/face-model.ts'
import { decodePicture } from '../../../src/measure/file/decode.ts'
import { readChin } from '../../../src/measure/head/chin.ts'
import { CHIN_MARKS } from '../../outside/chin-marks.ts'
import { packageFolder } from '../../outside/portraits.ts'

interface Reading {
  readonly name: string
  readonly beard: string
  /** Along the axis of the face, in % of the frame height: less is too high. */
  readonly meshError: number
  readonly chinError: number
  /** What the reading says of itself, in the same unit. */
  readonly said: number
}

async function read(picture: RgbPicture, truth: Pixel, name: string, beard: string): Promise<Reading> {
  const { width, height } = picture
  const faces = await findFaces(await loadFaceModel(), picture)
  const { landmarks } = measureFace(faces, width, height, 1)
  if (!faces || !landmarks) throw new Error(`${name}: no face was found.`)
  const seen = readChin(picture, faces.largest, landmarks)
  const { axis, meshChin } = landmarks
  const error = (chin: Pixel) => (100 * ((chin.x - truth.x) * axis.x + (chin.y - truth.y) * axis.y)) / height
  return {
    name,
    beard,
    meshError: error(meshChin),
    chinError: error(seen.chin),
    said: (100 * seen.chinError) / height,
  }
}

async function readDrawn(family: string, look: Look, heightPx: number): Promise<Reading> {
  const { pixels, widthPx, truth } = await drawPortrait(look, {
    widthPx: 0.8 * heightPx,
    heightPx,
    placement: { crownY: 0.09, chinY: 0.56 },
    backdrop: { color: 225 },
    key: { side: 'left', ratioStops: 0.5 },
    noise: 1,
  })
  const chin = { x: truth.chin.x * widthPx, y: truth.chin.y * heightPx }
  return read({ data: pixels, width: widthPx, height: heightPx }, chin, family, look.beard)
}

const meanAbs = (values: readonly number[]) =>
  values.reduce((sum, value) => sum + Math.abs(value), 0) / values.length
const lists = (readings: readonly Reading[]) => JSON.stringify(readings, null, 1)

// The drawing's truth is the jaw's lowest point, wherever hair covers it (examples/drawing/portrait.ts).
describe.each([360, 1000])('drawn sitters, %i px tall', (heightPx) => {
  const readings: Reading[] = []
  beforeAll(async () => {
    // Every beard, and every third of the others.
    const chosen = SITTERS.filter(({ look }, i) => look.beard !== 'none' || i % 3 === 0)
    for (const { family, look } of chosen) readings.push(await readDrawn(family, look, heightPx))
  })

  test('a bare or stubbly chin is within 0.7 % of the frame height, and nothing is said of a beard', () => {
    const bare = readings.filter(({ beard }) => beard === 'none' || beard === 'stubble')
    expect(bare.length).toBeGreaterThan(7)
    for (const { name, chinError, said } of bare) {
      expect(Math.abs(chinError), name).toBeLessThan(0.7)
      expect(said, name).toBe(0)
    }
  })

  test('a chin under a beard is within 0.5 %, and within what is said', () => {
    const bearded = readings.filter(({ beard }) => beard === 'short' || beard === 'full')
    expect(bearded).toHaveLength(4)
    for (const { name, chinError, said } of bearded) {
      expect(said, name).toBeGreaterThan(0)
      expect(Math.abs(chinError), name).toBeLessThan(Math.min(0.5, said))
    }
  })

  test('less than half as far off as the mesh alone', () => {
    const mean = meanAbs(readings.map(({ chinError }) => chinError))
    expect(mean, lists(readings)).toBeLessThan(0.5 * meanAbs(readings.map(({ meshError }) => meshError)))
  })
})

// Hand marks on photographs of MIT-licensed npm packages: see tests/outside/chin-marks.ts.
describe('photographs, marked by hand', () => {
  const readings: Reading[] = []
  beforeAll(async () => {
    for (const { source, path, chin, beard } of CHIN_MARKS) {
      const picture = await decodePicture(await readFile(join(await packageFolder(source), path)), 1e8)
      const truth = { x: (chin[0] / 100) * picture.width, y: (chin[1] / 100) * picture.height }
      readings.push(await read(picture, truth, path, beard ? 'full' : 'none'))
    }
  })

  test('bare chins are within 0.7 % of the frame height', () => {
    for (const { name, chinError, said } of readings.filter(({ beard }) => beard === 'none')) {
      expect(Math.abs(chinError), name).toBeLessThan(0.7)
      expect(said, name).toBe(0)
    }
  })

  test('the error said of a bearded chin holds the mark', () => {
    for (const { name, chinError, said } of readings.filter(({ beard }) => beard !== 'none'))
      expect(Math.abs(chinError), name).toBeLessThan(said)
  })

  test('less than half as far off as the mesh alone', () => {
    const mean = meanAbs(readings.map(({ chinError }) => chinError))
    expect(mean, lists(readings)).toBeLessThan(0.5 * meanAbs(readings.map(({ meshError }) => meshError)))
  })
})
