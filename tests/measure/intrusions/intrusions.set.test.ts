import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'
import { beforeAll, describe, expect, test } from 'vitest'
import { readBackdrop } from '../../../src/measure/backdrop-reading.ts'
import { decodePicture } from '../../../src/measure/file/decode.ts'
import type { DecodedPicture } from '../../../src/measure/file/decoded-picture.ts'
import { measurePicture, type PictureMeasurements } from '../../../src/measure/picture.ts'
import { SURE } from '../../../src/measure/schema/confidence.ts'
import type { Background, Intrusion } from '../../../src/measure/schema/measurements.ts'
import { PORTRAIT_MARKS, type PortraitMark } from '../../outside/portrait-marks.ts'
import { packageFolder } from '../../outside/portraits.ts'
import { part, partOf } from '../../sets.ts'
import { composite, HEIGHT, WIDTH } from '../finish/composites.ts'
import { scene } from '../scene.ts'
import { type IntrusionCase, NEGATIVES, POSITIVES } from './intrusion-cases.ts'

interface Result {
  readonly what: string
  readonly wanted: IntrusionCase['box']
  readonly intrusions: readonly Intrusion[]
  readonly background: Background
  readonly head: NonNullable<PictureMeasurements['head']>
}

async function read(picture: DecodedPicture): Promise<Omit<Result, 'what' | 'wanted'>> {
  const { background, head } = await measurePicture(picture, ['background', 'head'])
  if (!background || !head) throw new Error('The picture was not measured.')
  return { intrusions: background.intrusions ?? [], background, head }
}

// The measuring of a case takes half a second, the drawing of its sitters as long again.
const EVERY = 12

async function resultsOf(cases: readonly IntrusionCase[]): Promise<Result[]> {
  const results: Result[] = []
  for (const { what, taken, laid, box } of part(cases, EVERY))
    results.push({
      what: `${what}, ${taken.family}`,
      wanted: box,
      ...(await read(await composite(taken, laid))),
    })
  return results
}

/** Whether one of the boxes covers most of what was laid in; the sitter may stand before its lower part. */
function isFound({ wanted, intrusions }: Result): boolean {
  if (!wanted) return intrusions.length > 0
  const [left, top, right, bottom] = wanted
  return intrusions.some(({ box }) => {
    const across = Math.min(right, (box.x + box.width) * WIDTH) - Math.max(left, box.x * WIDTH)
    const down = Math.min(bottom, (box.y + box.height) * HEIGHT) - Math.max(top, box.y * HEIGHT)
    return across > 0.6 * (right - left) && down > 0.4 * (bottom - top)
  })
}

const named = (results: readonly Result[]) => results.map(({ what }) => what)

describe('drawn sitters with something at the edge of the frame', () => {
  let results: readonly Result[] = []
  beforeAll(async () => {
    results = await resultsOf(POSITIVES)
  })

  test('at least 95 % of what stands there is found where it stands', () => {
    expect(results.length).toBeGreaterThanOrEqual(partOf(60, EVERY))
    const missed = results.filter((each) => !isFound(each))
    expect(missed.length, named(missed).join('\n')).toBeLessThanOrEqual(0.05 * results.length)
  })

  test('it does not make the backdrop or the head unsure', () => {
    const unsure = results.filter(
      ({ background, head }) => Math.min(background.confidence, head.confidence) < 0.5,
    )
    expect(unsure.length, named(unsure).join('\n')).toBeLessThanOrEqual(0.05 * results.length)
  })
})

describe('drawn sitters with nothing there, or with an arm, hair or a chair that leaves the frame', () => {
  let results: readonly Result[] = []
  beforeAll(async () => {
    results = await resultsOf(NEGATIVES)
  })

  test('at most 2 % have something found', () => {
    expect(results.length).toBeGreaterThanOrEqual(partOf(50, EVERY))
    const wrong = results.filter(isFound)
    expect(wrong.length, named(wrong).join('\n')).toBeLessThanOrEqual(0.02 * results.length)
  })
})

test('nothing is found in the clean example delivery', async () => {
  const folder = 'examples/osprey-lane/delivery-clean'
  const files = (await readdir(folder, { recursive: true })).filter((file) => file.endsWith('.jpg'))
  expect(files.length).toBe(24)
  for (const file of part(files, 12)) {
    const { intrusions } = await read(await decodePicture(await readFile(join(folder, file)), 1e8))
    expect(intrusions, file).toEqual([])
  }
})

/** Cut close around the head: the frame ends at the crown or below it, and beside the ears. */
async function tightCrop({ source, path, crown, eyes, chin }: PortraitMark): Promise<DecodedPicture | null> {
  if (!eyes || !chin) return null
  const file = await readFile(join(await packageFolder(source), path))
  const { width = 0, height = 0 } = await sharp(file).metadata()
  const head = ((chin - crown) * height) / 100
  const size = { width: Math.min(width, Math.round(head)), height: Math.round(head / 0.7) }
  const middle = ((eyes[0][0] + eyes[1][0]) * width) / 200
  const left = Math.round(Math.min(width - size.width, Math.max(0, middle - size.width / 2)))
  const top = Math.round(((crown + 3) * height) / 100)
  const region = { left, top, width: size.width, height: Math.min(height - top, size.height) }
  return decodePicture(await sharp(file).extract(region).png().toBuffer(), 1e8)
}

test('nothing is found for sure in photographs that are cropped tight', async () => {
  const marked = PORTRAIT_MARKS.filter(({ plain, eyes, chin }) => plain && eyes && chin)
  expect(marked.length).toBeGreaterThanOrEqual(10)
  for (const mark of part(marked, 6)) {
    const crop = await tightCrop(mark)
    if (!crop) throw new Error(`${mark.path} has no marks of eyes and chin.`)
    const { background } = await measurePicture(crop, ['background'])
    const isSure = (background?.confidence ?? 0) >= SURE
    expect(isSure ? background?.intrusions : null, mark.path).toSatisfy(
      (found: Intrusion[] | null) => found === null || found.length === 0,
    )
  }
})

test('without a face nothing is known of what stands there', () => {
  const { lab, width, height } = scene(100, 120, (x) => (x < 0.1 ? [60, 60, 60] : [240, 240, 240]))
  expect(readBackdrop(lab, width, height, null).intrusions).toBeNull()
})
