import { expect, test } from 'vitest'
import { progressLine } from '../../src/checking/progress.ts'
import { recordingHost } from '../commands/host.ts'

/** The lines shown for a run: at so many milliseconds, so many done. */
function lines(
  steps: readonly (readonly [ms: number, done: number])[],
  total: number,
  columns = 80,
  isTTY = true,
) {
  const written: string[] = []
  let clock = 0
  const output = { write: (text: string) => written.push(text), columns, isTTY }
  const { host: recorded } = recordingHost('/')
  const host = { ...recorded, stdout: output, stderr: output }
  const progress = progressLine(host, () => clock)
  for (const [ms, done] of steps) {
    clock = ms
    progress.show({ done, total })
  }
  progress.clear()
  return written.map((text) => text.replace('\r\u001b[2K', ''))
}

test('tells the rate and the time left once they can be told', () => {
  expect(
    lines(
      [
        [0, 1],
        [1000, 5],
        [2000, 21],
        [4000, 41],
      ],
      61,
    ),
  ).toEqual([
    'Measured 1 of 61 portraits',
    'Measured 5 of 61 portraits',
    'Measured 21 of 61 portraits, 10 per second, 4 s left',
    'Measured 41 of 61 portraits, 10 per second, 2 s left',
    '',
  ])
})

test.each([
  [60_000, 31, 40, '0.5 per second, 18 s left'],
  [60_000, 31, 121, '0.5 per second, 3 min 0 s left'],
  [60_000, 31, 3631, '0.5 per second, 2 h 0 min left'],
  [60_000, 31, 1827, '0.5 per second, 59 min 52 s left'],
  [60_000, 31, 1831, '0.5 per second, 1 h 0 min left'],
])('after %i ms, %i of %i', (ms, done, total, words) => {
  expect(
    lines(
      [
        [0, 1],
        [ms, done],
      ],
      total,
    )[1],
  ).toBe(`Measured ${done} of ${total} portraits, ${words}`)
})

test('the end has no time left', () => {
  expect(
    lines(
      [
        [0, 1],
        [3000, 4],
      ],
      4,
    )[1],
  ).toBe('Measured 4 of 4 portraits, 1.0 per second')
})

test('never wraps, since a wrapped line can not be overwritten', () => {
  for (const line of lines(
    [
      [0, 1],
      [9000, 10],
    ],
    100,
    30,
  ))
    expect(line.length).toBeLessThan(30)
})

test('writes nothing where there is no terminal', () => {
  expect(
    lines(
      [
        [0, 1],
        [9000, 10],
      ],
      100,
      80,
      false,
    ),
  ).toEqual([])
})
