import { expect, test } from 'vitest'
import type { FrameReport } from '../../src/frames/frame-report.ts'
import { bestFirst } from '../../src/frames/rank.ts'

function frame(file: string, verdict: FrameReport['verdict'], marginPct: number, misses = 1): FrameReport {
  const outcome = {
    rule: 'tilt',
    advisory: false,
    deliverables: [],
    measured: null,
    expected: null,
    reason: '',
  }
  return {
    ...{ file, size: null, verdict, rooms: [], advice: [] },
    scene: Array.from({ length: misses }, () => ({ ...outcome, verdict })),
    nearest: { rule: 'tilt', deliverables: [], marginPct },
  }
}

test('usable frames first, then by how much is wrong, then by how near the worst is; else by name', () => {
  const frames = [
    frame('far off', 'fail', -60),
    frame('two things', 'fail', -1, 2),
    frame('just off', 'fail', -2),
    frame('maybe', 'unsure', 5),
    frame('just in', 'pass', 3),
    frame('b', 'pass', 40),
    frame('a', 'pass', 40),
  ]
  const order = ['a', 'b', 'just in', 'maybe', 'just off', 'far off', 'two things']
  expect(bestFirst(frames).map(({ file }) => file)).toEqual(order)
  expect(bestFirst(frames.toReversed()).map(({ file }) => file)).toEqual(order)
})
