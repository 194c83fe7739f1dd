import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'
import { beforeAll, describe, expect, test } from 'vitest'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import { measureFace } from '../../../../src/measure/face/face.ts'
import { findFaces, type LocatedFace } from '../../../../src/measure/face/find-faces.ts'
import { loadFaceModel } from '../../../../src/measure/face/networks/face-model.ts'
import { scaledFace } from '../../../../src/measure/face/placed-face.ts'
import { decodePicture } from '../../../../src/measure/file/decode.ts'
import { measureFinish } from '../../../../src/measure/finish/finish.ts'
import { measureFocus } from '../../../../src/measure/finish/focus/eye-focus.ts'
import { measure } from '../../../../src/measure/measure.ts'
import { SURE } from '../../../../src/measure/schema/confidence.ts'
import type { Face, Focus } from '../../../../src/measure/schema/measurements.ts'
import { eyeFocus } from '../../../../src/rules/finish/eye-focus.ts'
import { packageFolder } from '../../../outside/portraits.ts'
import { GOOD_NAME } from '../../../rules/judging/cases.ts'
import { part } from '../../../sets.ts'
import { blurred } from './drawn-eyes.ts'

interface Photograph {
  readonly picture: RgbPicture
  readonly located: LocatedFace
  readonly face: Face
  /** Pixels of the file per pixel at an inter-eye distance of 240 px. */
  readonly scale: number
}

/** A photograph from a public npm package, with its face. */
async function photographed(source: string, path: string): Promise<Photograph> {
  const picture = await decodePicture(await readFile(join(await packageFolder(source), path)), 1e8)
  const found = await findFaces(await loadFaceModel(), picture)
  if (!found) throw new Error(`No face was found in ${path}.`)
  const { irises } = found.largest
  const scale = Math.hypot(irises[1][0] - irises[0][0], irises[1][1] - irises[0][1]) / 240
  const { face } = measureFace(found, picture.width, picture.height, 1)
  return { picture, located: found.largest, face, scale }
}

function focus({ located, face }: Photograph, picture: RgbPicture): Focus {
  const { focus } = measureFinish(picture, located, face, ['focus'])
  if (!focus) throw new Error('The focus was not read.')
  return focus
}

const agency = (n: number) => ['startbootstrap-agency', `dist/assets/img/team/${n}.jpg`] as const
const argon = (name: string) => ['argon-design-system-free', `assets/img/faces/${name}.jpg`] as const
const soft = (n: number) => ['soft-ui-design-system', `assets/img/team-${n}.jpg`] as const
const material = (name: string) => ['material-kit', `assets/img/faces/${name}.jpg`] as const

/** Photographs of which readings may be off by more, at blurs up to so many px of the file. */
const WIDER: Readonly<Record<string, { readonly upTo: number; readonly by: number }>> = {
  // One eye lies under strands of hair, which become sharp enough to be read only when they are blurred a little.
  'assets/img/faces/fezbot.jpg': { upTo: 1.25, by: 0.38 },
  // Dark eyes in a dark picture, whose irises can't be told from the lids.
  'assets/img/faces/atikh.jpg': { upTo: 0.75, by: 0.19 },
}

// Every photograph of these packages with a face of 50 px or more between the eyes, but for one with glasses too dark to
// see an eye through.
const PHOTOGRAPHS = [
  agency(2),
  agency(3),
  ...['ali-pazani', 'atikh', 'christian', 'fezbot', 'team-3', 'team-4'].map(argon),
  ...['camp', 'card-profile2-square', 'marc'].map(material),
  soft(1),
  soft(2),
]
// Neon tubes reflected by both lenses.
const BEHIND_REFLECTIONS = [material('kendall')]
// No spectacles: closed eyes whose lids glitter with metallic make-up.
const GLITTER = argon('team-2')

const BLURS = [0.75, 1, 1.25, 1.5, 2, 2.5, 3]
/** Blurs in px of the file that are between 1 and 6 px at 240 px. */
function blursOf({ scale }: Photograph): number[] {
  return BLURS.filter((sigma) => sigma >= scale && sigma <= 6 * scale)
}

describe.each(part(PHOTOGRAPHS, 5))('the eyes of %s %s', (source, path) => {
  let photograph: Photograph
  beforeAll(async () => {
    photograph = await photographed(source, path)
  })

  // Their own spread is not known but by the reading itself; what blurs add up to is.
  test('blurred again are read as what the blurs add up to', async () => {
    const own = focus(photograph, photograph.picture).finestEdgePx ?? Number.NaN
    let before = own
    for (const sigma of blursOf(photograph)) {
      const reading = focus(photograph, await blurred(photograph.picture, sigma)).finestEdgePx ?? Number.NaN
      const wider = WIDER[path]
      const within = wider && sigma <= wider.upTo ? wider.by : 0.15
      expect(reading, `${sigma} px`).toBeGreaterThan(before)
      expect(Math.abs(reading / Math.hypot(own, sigma) - 1), `${sigma} px`).toBeLessThan(within)
      before = reading
    }
  })
})

// Reflections are not looked for: their edges are as wide.
test.each(part([...PHOTOGRAPHS, ...BEHIND_REFLECTIONS, GLITTER], 5))(
  'the eyes of %s %s, enlarged to twice their size, have no edge as fine as pixels show',
  async (source, path) => {
    const { picture, located, face } = await photographed(source, path)
    const { data, width, height } = picture
    const twice = await sharp(data, { raw: { width, height, channels: 3 } })
      .resize(2 * width, 2 * height, { kernel: 'cubic' })
      .raw()
      .toBuffer()
    const enlarged = { data: twice, width: 2 * width, height: 2 * height }
    const { irises, mesh } = scaledFace(located, 2)
    expect(measureFocus(enlarged, irises, mesh, face).finestEdgePx).toBeGreaterThan(0.7)
  },
)

describe.each(BEHIND_REFLECTIONS)('the eyes of %s %s, behind reflections', (source, path) => {
  test('are left to a person', async () => {
    const file = join(await packageFolder(source), path)
    const measured = await measure({ path: file, file: path }, ['focus'])
    expect(measured.finish?.focus).toMatchObject({ eyePx: null, finestEdgePx: null, confidence: 0 })
    expect(measured.finish?.focus?.doubts).toContain('eyes-behind-reflections')
    const finding = eyeFocus.judge({ measured, name: GOOD_NAME }, { max: 3 })
    expect(finding.verdict).toBe('unsure')
    expect(finding.reason).toContain('reflections cover the eyes')
  })

  test('and stay so when they are blurred', async () => {
    const photograph = await photographed(source, path)
    for (const sigma of blursOf(photograph)) {
      const { confidence } = focus(photograph, await blurred(photograph.picture, sigma))
      expect(confidence, `${sigma} px`).toBeLessThan(SURE)
    }
  })
})

async function focusOf([source, path]: readonly [string, string]) {
  const measured = await measure({ path: join(await packageFolder(source), path), file: path }, ['focus'])
  const { focus } = measured.finish ?? {}
  if (!focus) throw new Error(`The focus of ${path} was not read.`)
  return { measured, focus }
}

test('closed eyes whose lids glitter are left to a person', async () => {
  const { measured, focus } = await focusOf(GLITTER)
  expect(focus.confidence).toBeLessThan(SURE)
  expect(eyeFocus.judge({ measured, name: GOOD_NAME }, { max: 3 }).verdict).toBe('unsure')
})

test.each([
  ['a window on the lens at the left', soft(3), 'leftPx', 'rightPx'],
  ['a green light in the lens at the right', agency(1), 'rightPx', 'leftPx'],
] as const)('%s: the other eye is read', async (_, photograph, hidden, read) => {
  const { focus } = await focusOf(photograph)
  expect(focus[hidden]).toBeNull()
  expect(focus.eyePx).toBe(focus[read])
  expect(focus.confidence).toBeGreaterThan(0.5)
})
