import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { decodePicture } from '../../../src/measure/file/decode.ts'
import type { DecodedPicture } from '../../../src/measure/file/decoded-picture.ts'
import { FACE_LONG_EDGE_PX } from '../../../src/measure/file/picture-parts.ts'
import { alphaOf, copyOf } from '../../../src/measure/file/working-copy.ts'
import { findStraightening } from '../../../src/measure/straightening/straightening.ts'
import { PORTRAIT_MARKS } from '../../outside/portrait-marks.ts'
import { packageFolder } from '../../outside/portraits.ts'
import { part } from '../../sets.ts'
import { composite } from '../finish/composites.ts'
import { FILLS, type Turn, turned } from './turned.ts'

// A straightened picture takes a tenth of a second to make and as long to read.
const EVERY = 9

// From 1 degree on: the smallest pictures are 200 px wide, and half a degree leaves 1 px at their corners.
const DEGREES = [1, -1.3, 1.7, -2.2, 2.8, -3.7, 4.7, -6]

/** Each angle with each fill, canvas and quality in turn. */
const TURNS: readonly Turn[] = FILLS.flatMap((fill, f) =>
  DEGREES.map((degrees, d): Turn => {
    const quality = [75, 82, 90, 95][(f + d) % 4] ?? 90
    const isPng = fill === 'transparent' || (f + d) % 5 === 0
    return { fill, degrees, canvas: (f + d) % 2 === 0 ? 'kept' : 'grown', ...(isPng ? {} : { quality }) }
  }),
)

/** Drawn sitters before backdrops from nearly white to dark, with grain, and photographs of four packages. */
async function pictures(): Promise<DecodedPicture[]> {
  const drawn = await Promise.all(
    [250, 225, 140, 40].map((color, i) =>
      composite(
        { family: ['Grieve', 'Okoro', 'Adeyemi', 'Lund'][i] ?? 'Grieve', backdrop: { color }, noise: 1.2 },
        [],
      ),
    ),
  )
  const photographs: DecodedPicture[] = []
  for (const { source, path } of PORTRAIT_MARKS)
    photographs.push(await decodePicture(await readFile(join(await packageFolder(source), path)), 1e8))
  return [...drawn, ...photographs]
}

async function read(file: Buffer) {
  const picture = await decodePicture(file, 1e8)
  const copy = copyOf(picture, FACE_LONG_EDGE_PX)
  return findStraightening(picture, copy, alphaOf(picture, copy))?.straightening ?? null
}

let all: DecodedPicture[] = []
beforeAll(async () => {
  all = await pictures()
})

describe('pictures that were rotated and not cropped', () => {
  const cases = part(
    TURNS.map((turn, i) => ({ turn, i })),
    EVERY,
  )
  const isDetailed = ({ fill }: Turn) => fill === 'smeared' || fill === 'mirrored'

  test('flat and transparent fills are all found, their angles within 0.4 degrees', async () => {
    const plain = cases.filter(({ turn }) => !isDetailed(turn))
    const missed: string[] = []
    const off: string[] = []
    for (const { turn, i } of plain) {
      const found = await read(await turned(all[i % all.length] as DecodedPicture, turn))
      const what = `${JSON.stringify(turn)}, picture ${i % all.length}`
      if (found?.fill !== (turn.fill === 'transparent' ? 'transparent' : 'flat')) missed.push(what)
      else if (Math.abs(found.angleDeg - Math.abs(turn.degrees)) >= 0.4 || found.regions.length !== 4)
        off.push(what)
    }
    expect(off).toEqual([])
    expect(missed).toEqual([])
  })

  // 3 px at the corners of a picture of 1000: nothing of them is left in a smaller copy.
  test('flat fills of a third of a degree to half a one are found in pictures of 600 px and more', async () => {
    const large = all.filter(({ width, height }) => Math.max(width, height) >= 600)
    expect(large.length).toBeGreaterThanOrEqual(8)
    const thin = [0.35, -0.4, 0.5].flatMap((degrees) =>
      (['black', 'white', 'gray'] as const).map(
        (fill) => ({ fill, degrees, canvas: 'kept', quality: 85 }) as const,
      ),
    )
    const missed: string[] = []
    for (const [i, turn] of part([...thin.entries()], 4)) {
      const found = await read(await turned(large[i % large.length] as DecodedPicture, turn))
      if (found?.fill !== 'flat' || Math.abs(found.angleDeg - Math.abs(turn.degrees)) >= 0.2)
        missed.push(`${JSON.stringify(turn)}: ${JSON.stringify(found)}`)
    }
    expect(missed).toEqual([])
  })

  // Their deepest places are 2 to 4 px; mirrored, most of such are missed.
  test('of those of half a degree with repeated pixels at least two in three are', async () => {
    const large = all.filter(({ width, height }) => Math.max(width, height) >= 600)
    const tried = part([...large.entries()], 4)
    const missed: string[] = []
    for (const [i, picture] of tried) {
      const degrees = i % 2 === 0 ? 0.5 : -0.5
      const found = await read(
        await turned(picture, { fill: 'smeared', degrees, canvas: 'kept', quality: 85 }),
      )
      if (found?.fill !== 'smeared') missed.push(`${degrees} degrees, picture ${i}: ${found?.fill}`)
    }
    expect(missed.length, missed.join('\n')).toBeLessThanOrEqual(tried.length / 3)
  })

  test('of those with repeated or mirrored pixels at least nine in ten are', async () => {
    const detailed = cases.filter(({ turn }) => isDetailed(turn))
    const missed: string[] = []
    for (const { turn, i } of detailed) {
      const found = await read(await turned(all[i % all.length] as DecodedPicture, turn))
      if (found?.fill !== turn.fill) missed.push(`${JSON.stringify(turn)}, picture ${i % all.length}`)
    }
    expect(missed.length, missed.join('\n')).toBeLessThanOrEqual(Math.ceil(detailed.length / 10))
  })
})

test('nothing is found in any picture as it is', async () => {
  expect(all.length).toBeGreaterThanOrEqual(25)
  for (const [i, picture] of part([...all.entries()], 3)) {
    const copy = copyOf(picture, FACE_LONG_EDGE_PX)
    expect(findStraightening(picture, copy, null)?.straightening, `picture ${i}`).toBeUndefined()
  }
})
