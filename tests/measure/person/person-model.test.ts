import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { decodePicture } from '../../../src/measure/file/decode.ts'
import type { DecodedPicture } from '../../../src/measure/file/decoded-picture.ts'
import {
  cellAt,
  EDGE,
  frameWindow,
  type PersonMask,
  type Window,
} from '../../../src/measure/person/person-mask.ts'
import { loadPersonModel } from '../../../src/measure/person/person-model.ts'
import { PORTRAIT_MARKS } from '../../outside/portrait-marks.ts'
import { packageFolder } from '../../outside/portraits.ts'

// A photograph before a plain wall, whose crown is marked by hand in percent of the frame.
const MARK = PORTRAIT_MARKS.find(({ path }) => path.endsWith('team/1.jpg'))
let picture: DecodedPicture

beforeAll(async () => {
  if (!MARK) throw new Error('The marked photograph is gone.')
  picture = await decodePicture(await readFile(join(await packageFolder(MARK.source), MARK.path)), 1e8)
})

async function find(window: Window): Promise<PersonMask> {
  return (await loadPersonModel()).find(picture, window)
}

function sureness(mask: PersonMask, x: number, y: number): number {
  const { column, row } = cellAt(mask, (x / 100) * picture.width, (y / 100) * picture.height)
  return mask.values[Math.round(row) * EDGE + Math.round(column)] as number
}

test('the face is a person, the wall is none, and the hair ends where it was marked', async () => {
  const mask = await find(frameWindow(picture))
  const [x, y] = MARK?.eyes?.[0] ?? [0, 0]
  expect(sureness(mask, x, y)).toBeGreaterThan(0.95)
  expect(sureness(mask, 4, 4)).toBeLessThan(0.05)
  const crown = MARK?.crown ?? 0
  expect(sureness(mask, 41, crown + 2)).toBeGreaterThan(0.85)
  expect(sureness(mask, 41, crown - 2)).toBeLessThan(0.5)
})

test('a window that reaches out of the picture shows the same', async () => {
  const { width, height } = picture
  const mask = await find({ left: -0.2 * width, top: -0.2 * height, width, height })
  const [x, y] = MARK?.eyes?.[0] ?? [0, 0]
  expect(sureness(mask, x, y)).toBeGreaterThan(0.95)
  expect(sureness(mask, -10, -10)).toBeLessThan(0.05)
})
