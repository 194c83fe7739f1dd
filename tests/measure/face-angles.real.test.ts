import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'
import { beforeAll, describe, expect, test } from 'vitest'
import { decodePicture } from '../../src/measure/decode.ts'
import { measureFace } from '../../src/measure/face.ts'
import { type FaceModel, loadFaceModel, type MeshPoint } from '../../src/measure/face-model.ts'
import { findFaces } from '../../src/measure/find-faces.ts'
import type { RgbPicture } from '../../src/measure/rgb-picture.ts'
import { SURE } from '../../src/rules/judge-limits.ts'
import { PORTRAIT_MARKS } from '../outside/portrait-marks.ts'
import { packageFolder } from '../outside/portraits.ts'
import { canonicalPose } from './canonical-face.ts'

interface Reading {
  readonly turn: number
  readonly nod: number
  /** Whether it may be judged. */
  readonly sure: boolean
  /** Levelled, as it is read. */
  readonly mesh: readonly MeshPoint[]
}
interface Photograph extends Reading {
  readonly mirrored: Reading
}

// How the heads of photographs of public npm packages are turned, as seen by eye: by file name, each group further to the
// right of the frame than the one before.
const LEFT = ['faces/michael', 'faces/team-5', 'faces/team-3', 'img/team-3', 'team/1', 'card-profile6-square']
const AHEAD = ['team/3', 'marc', 'ali-pazani', 'atikh', 'fezbot', 'christian', 'img/team-1']
const RIGHT = ['card-profile1-square', 'card-profile5-square', 'camp', 'kendall']
const PROFILE = ['img/team-4']
const RAISED = ['faces/team-2', 'kendall', 'faces/michael', 'img/team-3']
const LOWERED = ['card-profile2-square']

describe('turn and nod on photographs', () => {
  const seen = new Map<string, Photograph>()
  beforeAll(async () => {
    const model = await loadFaceModel()
    for (const { source, path } of PORTRAIT_MARKS) {
      const content = await readFile(join(await packageFolder(source), path))
      const { data, width, height } = await decodePicture(content, 1e8)
      const raw = { raw: { width, height, channels: 3 } } as const
      const flopped = await sharp(data, raw).flop().raw().toBuffer()
      const own = await read(model, { data, width, height })
      seen.set(path, { ...own, mirrored: await read(model, { data: flopped, width, height }) })
    }
  }, 120_000)
  const named = (names: readonly string[]) =>
    names.map((name) => {
      const found = [...seen].find(([path]) => path.endsWith(`${name}.jpg`))
      if (!found) throw new Error(`There is no photograph ${name}.`)
      return found[1]
    })
  const turns = (names: readonly string[]) => named(names).map(({ turn }) => turn)

  test('the side is right for all, and the further a head is turned the larger the number', () => {
    expect(Math.max(...turns(LEFT))).toBeLessThan(-20)
    expect(Math.max(...turns(AHEAD).map(Math.abs))).toBeLessThan(10)
    expect(Math.min(...turns(RIGHT))).toBeGreaterThan(20)
    expect(Math.min(...turns(PROFILE))).toBeGreaterThan(Math.max(...turns(RIGHT)) + 10)
  })

  test('a raised chin is up and a lowered one down', () => {
    expect(Math.min(...named(RAISED).map(({ nod }) => nod))).toBeGreaterThan(10)
    expect(Math.max(...named(LOWERED).map(({ nod }) => nod))).toBeLessThan(-20)
  })

  test('mirrored, the turn changes its sign and the nod stays, within 6°: the networks are not alike on both sides', () => {
    for (const [path, { turn, nod, sure, mirrored }] of seen) {
      if (!sure) continue
      expect(Math.abs(mirrored.turn + turn), path).toBeLessThan(6)
      expect(Math.abs(mirrored.nod - nod), path).toBeLessThan(6)
    }
  })

  // The reference: the published canonical face fitted to the mesh in x and y alone. It knows nothing of the depth in
  // which the readings are taken.
  test('turns agree with the published face fitted to the outlines: within 4°, large ones within a sixth', () => {
    for (const [path, { turn, mesh }] of seen) {
      const { turnDeg } = canonicalPose(mesh)
      expect(Math.abs(turn - turnDeg), `${path}: ${turn}, ${turnDeg}`).toBeLessThan(
        Math.max(4, Math.abs(turnDeg) / 6),
      )
    }
  })
})

async function read(model: FaceModel, picture: RgbPicture): Promise<Reading> {
  const found = await findFaces(model, picture)
  const { face } = measureFace(found, picture.width, picture.height, 1)
  if (!found || face.turnDeg === null || face.nodDeg === null || face.tiltDeg === null) {
    throw new Error('There is no face.')
  }
  const lean = (face.tiltDeg * Math.PI) / 180
  const mesh = found.largest.mesh.map(
    ([x, y, z]): MeshPoint => [
      x * Math.cos(lean) + y * Math.sin(lean),
      y * Math.cos(lean) - x * Math.sin(lean),
      z,
    ],
  )
  return { turn: face.turnDeg, nod: face.nodDeg, sure: face.confidence >= SURE, mesh }
}
