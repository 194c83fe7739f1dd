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

test('the files of a stranger who may be somebody missing stand in the cells of that person', () => {
  const paths = [...COMPLETE.filter((path) => !path.includes('Lund')), 'web/Lunde-Bjorn_00999.jpg']
  expect(states(paths)).toEqual([
    'Lund Bjørn 00990: missing perhaps',
    'Nair Priya 15388: pass pass',
    'Pham Linh 17001: absent absent',
  ])
  const [row] = matrixOf(deliveryOf(paths), verdicts(paths))?.rows ?? []
  expect(row).toMatchObject({ listed: true, perhaps: 'Lunde Bjorn 00999' })
  expect(row?.cells[1]?.files).toEqual(['web/Lunde-Bjorn_00999.jpg'])
})

test('nobody is missing who has left; files that are still there have their verdict', () => {
  const staff = 'family,given,staff-id,left\nLund,Bjørn,00990,2026-03-31\n'
  const rowsOn = (today: string, paths: readonly string[]) =>
    matrixOf(deliveryOf(paths, staff, { today }), verdicts(paths, { [WEB]: 'fail' }))?.rows.map(
      ({ absent, cells }) => [absent, ...cells.map(({ state }) => state)],
    )
  expect(rowsOn('2026-03-31', [])).toEqual([[null, 'missing', 'missing']])
  expect(rowsOn('2026-04-01', [])).toEqual([['left on 2026-03-31', 'absent', 'absent']])
  expect(rowsOn('2026-04-01', [WEB])).toEqual([['left on 2026-03-31', 'absent', 'fail']])
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
      {
        person: 'Lund Bjørn 00990',
        listed: true,
        absent: null,
        perhaps: null,
        cells: [{ state: 'pass', files: [PRINT] }],
      },
    ],
    unplaced: [],
  })
  expect(matrixOf(deliveryOf(['scan.jpg'], null), new Map())).toBeNull()
})
