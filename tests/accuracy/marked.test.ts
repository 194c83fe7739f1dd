import { mkdtemp, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { SITTERS } from '../../examples/drawing/sitters.ts'
import { markedLines } from '../../scripts/accuracy/marked-lines.ts'
import { decoder } from '../../src/measure/file/decoder.ts'
import { drawnPortrait } from '../drawn.ts'
import type { Measure } from './compared.ts'
import { evaluateMarked, type MarkedReading } from './evaluate-marked.ts'
import { readMarks } from './marked-folder.ts'

async function folderWith(marks: string): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'marked-'))
  await writeFile(join(folder, 'marks.json'), marks)
  return folder
}

describe('a folder of marked portraits', () => {
  test('a mark without its chin is refused with its place', async () => {
    const mark = { file: 'a.jpg', leftPupil: [1, 2], rightPupil: [3, 2] }
    await expect(readMarks(await folderWith(JSON.stringify([mark])))).rejects.toThrow(
      /marks\.json: \/0\/chin/,
    )
  })

  test('a drawn sitter is measured against its marks', async () => {
    const { look } = SITTERS[4] as (typeof SITTERS)[number]
    const { pixels, widthPx, heightPx, truth } = await drawnPortrait(look, {
      widthPx: 400,
      heightPx: 500,
      placement: { crownY: 0.1, chinY: 0.6 },
      backdrop: { color: 225 },
      key: { side: 'left', ratioStops: 0.5 },
    })
    const px = ({ x, y }: { x: number; y: number }) => [x * widthPx, y * heightPx]
    const mark = {
      file: 'sitter.png',
      leftPupil: px(truth.leftEye),
      rightPupil: px(truth.rightEye),
      // 2 % of the height below the true chin: the reading must come out that much too high.
      chin: [truth.chin.x * widthPx, (truth.chin.y + 0.02) * heightPx],
      groups: ['beard none'],
    }
    const folder = await folderWith(JSON.stringify([mark]))
    await decoder(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } }).toFile(
      join(folder, mark.file),
    )
    const [reading] = await evaluateMarked(folder)
    const error = (measure: Measure) => reading?.compared.find((one) => one.measure === measure)?.error ?? 9
    expect(Math.abs(error('eyeLine'))).toBeLessThan(0.3)
    expect(Math.abs(error('offCenter'))).toBeLessThan(0.3)
    expect(Math.abs(error('tilt'))).toBeLessThan(1)
    expect(Math.abs(error('turn'))).toBeLessThan(3)
    expect(Math.abs(error('chin') + 2)).toBeLessThan(0.7)
    // No crown is marked, so the height is held against the crown that was read.
    expect(reading?.compared.some(({ measure }) => measure === 'crown')).toBe(false)
    expect(error('headHeight')).toBeCloseTo(error('chin'), 1)
    expect(reading?.groups).toContain('beard none')
  })
})

test('the errors are summed up, with how many the errors told hold, and groups unlike the mean', () => {
  const reading = (error: number, group: string): MarkedReading => ({
    name: 'a.jpg',
    groups: [group],
    doubts: [],
    compared: [{ measure: 'eyeLine', error, told: 0.5 }],
  })
  const lines = markedLines([
    ...Array.from({ length: 15 }, () => reading(-0.1, 'skin light')),
    ...Array.from({ length: 5 }, () => reading(0.6, 'skin dark')),
  ]).map((line) => line.replace(/ +/g, ' '))
  // Fifteen of -0.1 and five of 0.6: mean error 4.5 / 20, bias 1.5 / 20.
  const figures = '20 +0.07 0.23 0.10 0.60 0.60 0.60 0.60'
  expect(lines).toContain(`eye line, % of the frame height ${figures} 0.50 15 of 20`)
  expect(lines).toContain('tilt, degrees nothing was marked or measured')
  expect(lines).toContain(' skin dark (5): 0.60, over 1.3 times the mean of all')
  expect(lines).toContain(' skin light (15): 0.10')
})
