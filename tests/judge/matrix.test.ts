import { expect, test } from 'vitest'
import { matrixOf } from '../../src/judge/matrix.ts'
import type { Verdict } from '../../src/judge/verdict.ts'
import { COMPLETE, deliveryOf } from '../rules/delivery/delivery-cases.ts'

const verdicts = (
  paths: readonly string[],
  other: Record<string, 'fail' | 'unsure'> = {},
): ReadonlyMap<string, Verdict> => new Map(paths.map((path) => [path, other[path] ?? 'pass']))
const [PRINT = '', , WEB = ''] = COMPLETE

/** States by person: "Lund Bjørn 00990: pass pass". */
function states(paths: readonly string[], judged = verdicts(paths)): string[] {
  const matrix = matrixOf(deliveryOf(paths), judged)
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
  const matrix = matrixOf(deliveryOf(paths), verdicts(paths))
  expect(matrix?.rows.map(({ listed }) => listed)).toEqual([true, true, true, false])
  expect(matrix?.rows[2]?.absent).toBe('on leave')
})

test('a cell has the verdict on its file', () => {
  expect(states(COMPLETE, verdicts(COMPLETE, { [WEB]: 'unsure', [PRINT]: 'fail' }))[0]).toBe(
    'Lund Bjørn 00990: fail unsure',
  )
})

test('what was not judged is never a pass', () => {
  expect(states(COMPLETE, new Map())[0]).toBe('Lund Bjørn 00990: unsure unsure')
})

test('files that belong in no cell are named', () => {
  const paths = [...COMPLETE, 'print/scan.jpg']
  expect(matrixOf(deliveryOf(paths), verdicts(paths))?.unplaced).toEqual(['print/scan.jpg'])
})

test('without deliverables each person has one cell; without people there is no matrix', () => {
  const delivery = { ...deliveryOf([PRINT], null), deliverables: [] }
  expect(matrixOf(delivery, verdicts([PRINT]))).toEqual({
    deliverables: [],
    rows: [
      { person: 'Lund Bjørn 00990', listed: true, absent: null, cells: [{ state: 'pass', files: [PRINT] }] },
    ],
    unplaced: [],
  })
  expect(matrixOf(deliveryOf(['scan.jpg'], null), new Map())).toBeNull()
})
