import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'
import { beforeAll, expect, test } from 'vitest'
import { SITTERS } from '../../examples/drawing/sitters.ts'
import { selectable, selectionAmong } from '../../src/likeness/pair-selection.ts'
import { samePicture } from '../../src/likeness/same-picture.ts'
import { PORTRAIT_MARKS } from '../outside/portrait-marks.ts'
import { packageFolder } from '../outside/portraits.ts'
import { seeded } from '../random.ts'
import { drawn, type Shown, shown } from '../rules/delivery/frames.ts'
import { part, partOf } from '../sets.ts'

// Photographs of a public npm package, pinned by hash in tests/outside/portraits.ts, and drawn sitters.
const PACKAGE = 'argon-design-system-free'
const PHOTOGRAPHS = 8
const COPIES = 7
const EVERY = 4

/** Cropped, mirrored, turned, graded, made smaller and saved again, each or not, by the seed. */
async function copied(file: Buffer, seed: number): Promise<Buffer> {
  const random = seeded(seed)
  const { width, height } = await sharp(file).metadata()
  let copy = sharp(file)
  if (random() < 0.75) {
    const keep = 0.85 + 0.15 * random()
    const part = { width: Math.round(keep * width), height: Math.round(keep * height) }
    const left = Math.floor(random() * (width - part.width + 1))
    const top = Math.floor(random() * (height - part.height + 1))
    copy = sharp(
      await copy
        .extract({ left, top, ...part })
        .png()
        .toBuffer(),
    )
  }
  if (random() < 0.3) copy = copy.flop()
  if (random() < 0.15)
    copy = sharp(
      await copy
        .rotate(5 * random() - 2.5, { background: '#f0f0f0' })
        .png()
        .toBuffer(),
    )
  if (random() < 0.4) copy = copy.linear(0.88 + 0.24 * random(), 16 * random() - 8)
  const edge = Math.round(130 + 700 * random() ** 2)
  if (random() < 0.7) copy = copy.resize(edge, edge, { fit: 'inside', withoutEnlargement: true })
  return copy.jpeg({ quality: Math.round(25 + 70 * random()) }).toBuffer()
}

/** What turned or soft faces are lost by when only their irises are trusted. */
const GRAY_AND_SOFT: readonly ((file: Buffer, widthPx: number) => Promise<Buffer>)[] = [
  (file) => sharp(file).grayscale().jpeg().toBuffer(),
  (file, widthPx) =>
    sharp(file)
      .blur(widthPx / 70)
      .jpeg()
      .toBuffer(),
]

const pictures: Shown[] = []
beforeAll(async () => {
  const files: [string, Buffer][] = []
  const third = [...SITTERS.keys()].filter((index) => index % 3 === 0)
  for (const index of part(third, EVERY)) files.push([`sitter ${index}`, await drawn(index, 0, {})])
  const photographs = PORTRAIT_MARKS.filter(({ source }) => source === PACKAGE).slice(0, PHOTOGRAPHS)
  const folder = await packageFolder(PACKAGE)
  for (const { path } of part(photographs, EVERY)) {
    const file = await readFile(join(folder, path))
    files.push([path, file])
    const { width } = await sharp(file).metadata()
    for (const [k, edit] of GRAY_AND_SOFT.entries())
      pictures.push(await shown(`${path}, ${k === 0 ? 'gray' : 'soft'}`, path, await edit(file, width)))
  }
  for (const [number, [name, file]] of files.entries()) {
    pictures.push(await shown(`${name} as it is`, name, file))
    for (let k = 0; k < COPIES; k++)
      pictures.push(await shown(`${name}, copy ${k}`, name, await copied(file, 100 * number + k)))
  }
})

test('no pair that the close comparison tells is passed over, either way round', () => {
  const ready = pictures.map(({ signature, face, ...rest }) => ({
    ...rest,
    signature,
    one: selectable(signature, face),
  }))
  const select = selectionAmong(ready.map(({ one }) => one))
  const chosen = ready.map(({ one }) => new Set(select(one, 0, () => true)))
  let told = 0
  let wellKnown = 0
  let spared = 0
  const lost: string[] = []
  for (const [i, a] of ready.entries()) {
    for (const [k, b] of ready.slice(i + 1).entries()) {
      const j = i + 1 + k
      const isTold = samePicture(a.signature, b.signature).sameness !== 'different'
      const mayBe = chosen[i]?.has(j) && chosen[j]?.has(i)
      if (isTold) told++
      if (isTold && a.one.head && b.one.head) wellKnown++
      if (isTold && !mayBe) lost.push(`${a.what} and ${b.what}`)
      if (!mayBe && a.sitter !== b.sitter) spared++
    }
  }
  expect(lost).toEqual([])
  expect(told).toBeGreaterThan(partOf(300, EVERY))
  expect(wellKnown).toBeGreaterThan(partOf(190, EVERY))
  // Pairs of 16 originals, or of 4 of them: 120 or 6.
  expect(spared).toBeGreaterThan(partOf(1000, 20))
})
