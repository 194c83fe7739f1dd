import { describe, expect, test } from 'vitest'
import { setMatch } from '../../../src/rules/delivery/set-match.ts'
import { gaussian } from '../../random.ts'
import { GOOD_METADATA } from '../judging/cases.ts'
import { type Changes, deliveryOf, portrait } from './deliveries.ts'

const judge = (files: Parameters<typeof deliveryOf>[0], options = {}) =>
  setMatch.judge(deliveryOf(files), options)
const normal = gaussian(11)

/** Portraits made in one sitting on a day, as they vary. */
function sitting(name: string, n: number, day: string | null, changes: (vary: () => number) => Changes) {
  return Array.from({ length: n }, (_, i) => {
    const captureTime = day && `${day}T1${i % 10}:00:00`
    return portrait(`${name}${String(i).padStart(2, '0')}`, 'print', {
      ...changes(normal),
      rest: { metadata: { ...GOOD_METADATA, captureTime } },
    })
  })
}
const backdrop = (lightnessL: number) => (vary: () => number) => ({
  background: { lightnessL: lightnessL + 0.3 * vary() },
})

describe('a set of two groups', () => {
  const first = sitting('A', 21, '2026-03-05', backdrop(96))
  const second = sitting('B', 12, '2026-03-19', backdrop(92))
  const [finding, ...more] = judge([...first, ...second])

  test('is one finding that names both, how they differ, and the time between them', () => {
    expect(more).toEqual([])
    expect(finding?.verdict).toBe('fail')
    expect(finding?.files).toEqual(second.map(({ name }) => name.path))
    expect(finding?.people).toHaveLength(12)
    expect(finding?.reason).toMatch(
      /^The set for print has drifted into two groups\. In 12 portraits \("print\/B00.jpg", "print\/B01.jpg", "print\/B02.jpg" and 9 more\) the backdrop is [34](\.\d)? L\* darker \(9[12](\.\d)? L\* against 9[56](\.\d)? L\*\); the others are 21 \("print\/A00.jpg", "print\/A01.jpg", "print\/A02.jpg" and 18 more\)\. The 12 were taken 14 days after the others\.$/,
    )
    expect(finding?.fix).toMatch(
      /^Bring the 12 in line with the others first\. Lighten the backdrop by about 0\.2 stop to match the others\.$/,
    )
  })

  test('without capture times says nothing of when', () => {
    const files = [...sitting('A', 21, null, backdrop(96)), ...sitting('B', 12, null, backdrop(92))]
    expect(judge(files)[0]?.reason).toMatch(/and 18 more\)\.$/)
  })

  test('that differ in several things are reported once', () => {
    const both = (lightnessL: number, b: number) => (vary: () => number) => ({
      background: { lightnessL: lightnessL + 0.3 * vary(), lab: { L: 96, a: 0, b: b + 0.2 * vary() } },
    })
    const files = [...sitting('A', 21, null, both(96, 0)), ...sitting('B', 12, null, both(92, 6))]
    const found = judge(files)
    expect(found).toHaveLength(1)
    expect(found[0]?.reason).toContain('darker')
    expect(found[0]?.reason).toContain('yellower')
  })

  test('by how much to move the crop, but for files with a crop of their own', () => {
    const eyes =
      (eyeLinePct: number, judged: Changes['judged'] = {}) =>
      (vary: () => number) => {
        const found = eyeLinePct + 0.4 * vary()
        return { head: { eyeLinePct: found, chin: { x: 0.5, y: (found + 18) / 100 } }, judged }
      }
    const crop = { rule: 'headroom', crop: null }
    const files = [
      ...sitting('A', 21, null, eyes(37)),
      ...sitting('B', 11, null, eyes(43)),
      ...sitting('C', 1, null, eyes(43, { fileCrop: crop })),
    ]
    const [found] = judge(files)
    expect(found?.fix).toMatch(
      /^Bring the 12 in line with the others first\. Move the crop down by about 1[678]\d px\. Where/,
    )
    expect(found?.fix).toMatch(/Where another finding gives a file its crop, use that one\.$/)
  })

  test('one that stands out from its own group is reported beside', () => {
    const dark = portrait('Dark', 'print', { background: { lightnessL: 84 } })
    const found = judge([...first, ...second, dark])
    expect(found.map(({ files }) => files.length)).toEqual([13, 1])
    expect(found[1]?.files).toEqual(['print/Dark.jpg'])
    expect(found[1]?.fix).not.toContain('first')
  })

  test('three are no group: they stand out one by one', () => {
    const found = judge([...first, ...sitting('B', 3, null, backdrop(92))])
    expect(found.map(({ files }) => files.length)).toEqual([1, 1, 1])
  })

  test('are let pass by a wider limit', () => {
    expect(judge([...first, ...second], { 'max-score': 40 })[0]?.verdict).toBe('pass')
  })
})

test('hair divides no set: half the sitters have big hair', () => {
  const hair = (headroomPct: number, headHeightPct: number) => (vary: () => number) => ({
    head: { headroomPct: headroomPct + 0.4 * vary(), headHeightPct: headHeightPct + 0.4 * vary() },
  })
  const files = [...sitting('A', 16, null, hair(11, 44)), ...sitting('B', 16, null, hair(4, 51))]
  expect(judge(files)).toMatchObject([{ verdict: 'pass' }])
})

test('a set that varies in one piece has not drifted, whatever it looks like', () => {
  const vary = gaussian(12)
  for (let set = 0; set < 200; set++) {
    const n = 12 + (set % 60)
    const spread = [0.1, 1, 4][set % 3] as number
    const files = Array.from({ length: n }, (_, i) =>
      portrait(`P${i}`, 'print', { background: { lightnessL: 90 + spread * vary() } }),
    )
    expect(judge(files).filter(({ reason }) => reason.includes('drifted'))).toEqual([])
  }
})

test.each([
  [12, 21],
  [21, 12],
])('of two groups lit in two ways, the uneven one is to change: %i uneven, %i even', (uneven, even) => {
  const lit = (unevennessL: number) => (vary: () => number) => ({
    background: { unevennessL: unevennessL + 0.2 * vary() },
  })
  const [found] = judge([...sitting('U', uneven, null, lit(9)), ...sitting('E', even, null, lit(1))])
  expect(found?.files).toHaveLength(uneven)
  expect(found?.files[0]).toBe('print/U00.jpg')
  expect(found?.reason).toContain('less evenly lit')
})

test.each([2, 3, 4])('%i that stand out take nobody else along, in 100 sets', (outliers) => {
  for (let seed = 0; seed < 100; seed++) {
    const vary = gaussian(100 + seed)
    const lit = (name: string, n: number, lightnessL: number) =>
      Array.from({ length: n }, (_, i) =>
        portrait(`${name}${i}`, 'print', { background: { lightnessL: lightnessL + 0.3 * vary() } }),
      )
    const found = judge([...lit('A', 21, 96), ...lit('B', outliers, 92)])
    expect(found.filter(({ files }) => files.length > 1)).toEqual([])
  }
})
