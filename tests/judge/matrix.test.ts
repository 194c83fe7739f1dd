import { expect, test } from 'vitest'
import { type Judged, matrixOf } from '../../src/judge/matrix.ts'
import type { DeliveryOutcome } from '../../src/rules/contract/delivery-outcome.ts'
import { COMPLETE, deliveryOf } from '../rules/delivery/delivery-cases.ts'

const verdicts = (
  paths: readonly string[],
  other: Record<string, 'fail' | 'unsure'> = {},
): Judged['verdicts'] => new Map(paths.map((path) => [path, other[path] ?? 'pass']))
const outcome = (changes: Partial<DeliveryOutcome>): DeliveryOutcome => ({
  rule: 'same-frame',
  advisory: false,
  people: [],
  files: [],
  verdict: 'fail',
  measured: null,
  expected: null,
  reason: 'So it is.',
  ...changes,
})
const [PRINT = '', , WEB = ''] = COMPLETE

/** States by person: "Lund Bjørn 00990: pass pass". */
function states(paths: readonly string[], judged: Partial<Judged> = {}, staff?: string | null): string[] {
  const matrix = matrixOf(deliveryOf(paths, staff), { verdicts: verdicts(paths), outcomes: [], ...judged })
  return (matrix?.rows ?? []).map(
    ({ person, cells }) => `${person}: ${cells.map(({ state }) => state).join(' ')}`,
  )
}

test('all there, and one absent', () => {
  expect(states(COMPLETE)).toEqual([
    'Lund Bjørn 00990: pass pass',
    'Nair Priya 15388: pass pass',
    'Pham Linh 17001: absent absent',
  ])
})

test('one missing, one twice, one not on the roster', () => {
  const paths = [
    PRINT,
    'print/Nair-Priya_15388.jpg',
    'late/print/Nair-Priya_15388.jpg',
    'web/Okoro-Emeka_16001.jpg',
  ]
  expect(states(paths)).toEqual([
    'Lund Bjørn 00990: pass missing',
    'Nair Priya 15388: double missing',
    'Pham Linh 17001: absent absent',
    'Okoro Emeka 16001: missing pass',
  ])
  const matrix = matrixOf(deliveryOf(paths), { verdicts: verdicts(paths), outcomes: [] })
  expect(matrix?.rows.map(({ listed }) => listed)).toEqual([true, true, true, false])
  expect(matrix?.rows[2]?.absent).toBe('on leave')
})

test('a cell has the worst of what is said of its file alone and in the delivery', () => {
  const first = (judged: Partial<Judged>) => states(COMPLETE, judged)[0]
  expect(first({ verdicts: verdicts(COMPLETE, { [WEB]: 'unsure' }) })).toBe('Lund Bjørn 00990: pass unsure')
  expect(first({ outcomes: [outcome({ files: [PRINT] })] })).toBe('Lund Bjørn 00990: fail pass')
  expect(first({ outcomes: [outcome({ verdict: 'unsure', files: [PRINT] })] })).toBe(
    'Lund Bjørn 00990: unsure pass',
  )
  expect(first({ outcomes: [outcome({ files: [PRINT], advisory: true })] })).toBe(
    'Lund Bjørn 00990: pass pass',
  )
  const waiver = { reason: 'a', approvedBy: 'b', until: '2027-03-31' }
  expect(first({ outcomes: [outcome({ files: [PRINT], waiver })] })).toBe('Lund Bjørn 00990: pass pass')
})

test('what was not judged is never a pass', () => {
  expect(states(COMPLETE, { verdicts: new Map() })[0]).toBe('Lund Bjørn 00990: unsure unsure')
})

test('files that belong in no cell are named', () => {
  const paths = [...COMPLETE, 'print/scan.jpg']
  expect(matrixOf(deliveryOf(paths), { verdicts: verdicts(paths), outcomes: [] })?.unplaced).toEqual([
    'print/scan.jpg',
  ])
})

test('without deliverables each person has one cell; without people there is no matrix', () => {
  const delivery = { ...deliveryOf([PRINT], null), deliverables: [] }
  expect(matrixOf(delivery, { verdicts: verdicts([PRINT]), outcomes: [] })).toEqual({
    deliverables: [],
    rows: [
      { person: 'Lund Bjørn 00990', listed: true, absent: null, cells: [{ state: 'pass', files: [PRINT] }] },
    ],
    unplaced: [],
  })
  expect(matrixOf(deliveryOf(['scan.jpg'], null), { verdicts: new Map(), outcomes: [] })).toBeNull()
})
