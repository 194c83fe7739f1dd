import { expect, test } from 'vitest'
import { withKnown } from '../../src/changes/known.ts'
import type { DeliveredFile } from '../../src/rules/contract/delivery-rule.ts'
import { setMatch } from '../../src/rules/delivery/set-match.ts'
import { gaussian } from '../random.ts'
import { deliveryOf, portrait } from '../rules/delivery/deliveries.ts'

const OUTLIERS = [
  portrait('Low', 'print', { head: { headroomPct: 4, eyeLinePct: 32 } }),
  portrait('High', 'print', { head: { headroomPct: 15, eyeLinePct: 43 } }),
  portrait('Dark', 'print', { background: { lightnessL: 88 } }),
  portrait('Aside', 'print', { head: { offCenterPct: 8 } }),
]
const CLEAN = 'print/P0.jpg'

function clean(index: number, normal: () => number): DeliveredFile {
  return portrait(`P${index}`, 'print', {
    head: { headroomPct: 9 + 0.5 * normal(), eyeLinePct: 37 + 0.5 * normal() },
    background: { lightnessL: 96 + 0.3 * normal() },
  })
}

function outcomesOf(files: readonly DeliveredFile[]) {
  return setMatch
    .judge(deliveryOf([...files, ...OUTLIERS]), {})
    .map((finding) => ({ rule: setMatch.id, advisory: false, ...finding }))
}

test('four that stand out stay known when somebody else is photographed again, though numbers move', () => {
  let moved = 0
  for (let seed = 1; seed <= 50; seed++) {
    const normal = gaussian(seed)
    const before = Array.from({ length: 8 + seed }, (_, index) => clean(index, normal))
    const now = [clean(0, normal), ...before.slice(1)]
    const was = outcomesOf(before)
    const marked = withKnown(outcomesOf(now), was, new Set([CLEAN]))
    const four = marked.filter(({ files: [file] }) => OUTLIERS.some(({ name }) => name.path === file))
    expect(four, `seed ${seed}`).toHaveLength(4)
    expect(
      four.every(({ known }) => known),
      `seed ${seed}`,
    ).toBe(true)
    if (four.some(({ reason }) => !was.some((one) => one.reason === reason))) moved++
  }
  // Else the words alone would have told.
  expect(moved).toBeGreaterThan(10)
})

test('one that stands out only now is not known', () => {
  const normal = gaussian(7)
  const before = Array.from({ length: 20 }, (_, index) => clean(index, normal))
  const now = before.map((file, index) =>
    index < 15 ? portrait(`P${index}`, 'print', { background: { lightnessL: 90 + 0.3 * normal() } }) : file,
  )
  const changed = new Set(now.slice(0, 15).map(({ name }) => name.path))
  const marked = withKnown(outcomesOf(now), outcomesOf(before), changed)
  const left = marked.filter(({ files: [file = ''] }) => /P1[5-9]/.test(file))
  expect(left.length).toBeGreaterThan(0)
  expect(left.filter(({ known }) => known)).toEqual([])
})
