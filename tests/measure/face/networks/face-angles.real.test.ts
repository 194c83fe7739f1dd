import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'
import { beforeAll, describe, expect, test } from 'vitest'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import { eyeTiltDeg } from '../../../../src/measure/face/eye-tilt.ts'
import { measureFace } from '../../../../src/measure/face/face.ts'
import { findFaces } from '../../../../src/measure/face/find-faces.ts'
import { meshEyes } from '../../../../src/measure/face/irises/mesh-eyes.ts'
import {
  type FaceModel,
  loadFaceModel,
  type MeshPoint,
} from '../../../../src/measure/face/networks/face-model.ts'
import { decodePicture } from '../../../../src/measure/file/decode.ts'
import { SURE } from '../../../../src/measure/schema/confidence.ts'
import { FACING_MARKS, type FacingMark } from '../../../outside/facing-marks.ts'
import { PORTRAIT_MARKS } from '../../../outside/portrait-marks.ts'
import { packageFolder } from '../../../outside/portraits.ts'
import { canonicalPose } from '../canonical-face.ts'

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
      seen.set(`${source}/${path}`, { ...own, mirrored: await read(model, { data: flopped, width, height }) })
    }
  })
  const marked = (is: (mark: FacingMark) => boolean, value: (one: Photograph) => number) =>
    FACING_MARKS.filter(is).map(({ source, path }) => {
      const found = seen.get(`${source}/${path}`)
      if (!found) throw new Error(`${path} of ${source} was not measured.`)
      return value(found)
    })
  const turns = (side: FacingMark['turn']) =>
    marked(
      ({ turn }) => turn === side,
      ({ turn }) => turn,
    )
  const nods = (way: FacingMark['nod']) =>
    marked(
      ({ nod }) => nod === way,
      ({ nod }) => nod,
    )

  test('the side is right for all, and the further a head is turned the larger the number', () => {
    expect(Math.max(...turns('left'))).toBeLessThan(-20)
    expect(Math.max(...turns('ahead').map(Math.abs))).toBeLessThan(10)
    expect(Math.min(...turns('right'))).toBeGreaterThan(20)
    expect(Math.min(...turns('profile'))).toBeGreaterThan(Math.max(...turns('right')) + 10)
  })

  test('a raised chin is up and a lowered one down', () => {
    expect(Math.min(...nods('raised'))).toBeGreaterThan(10)
    expect(Math.max(...nods('lowered'))).toBeLessThan(-20)
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
  if (!found || face.turnDeg === null || face.nodDeg === null) {
    throw new Error('There is no face.')
  }
  const lean = (eyeTiltDeg(meshEyes(found.largest.mesh)) * Math.PI) / 180
  const mesh = found.largest.mesh.map(
    ([x, y, z]): MeshPoint => [
      x * Math.cos(lean) + y * Math.sin(lean),
      y * Math.cos(lean) - x * Math.sin(lean),
      z,
    ],
  )
  return { turn: face.turnDeg, nod: face.nodDeg, sure: face.confidence >= SURE, mesh }
}
