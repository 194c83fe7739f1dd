import { describe, expect, test } from 'vitest'
import { leftOver, sightings } from '../../../scripts/reliability/by-marks.ts'
import { diagram, FACTORS, idealShare } from '../../../scripts/reliability/diagram.ts'
import { heldOutTold, scaleOf, shareWithin } from '../../../scripts/reliability/held-out.ts'

describe('errors told against errors found', () => {
  // Twenty sitters off by 0.1 to 2.0 where 1 is told: 95 of 100 are nineteen, within 1.9.
  const readings = Array.from({ length: 20 }, (_, i) => ({
    sitter: `s${i}`,
    error: ((-1) ** i * (i + 1)) / 10,
    told: 1,
  }))

  test('the scale is what 95 of 100 are within', () => {
    expect(scaleOf(readings)).toBeCloseTo(1.9, 9)
    expect(shareWithin(readings, 1)).toBeCloseTo(0.5, 9)
    expect(shareWithin(readings, 1.9)).toBeCloseTo(0.95, 9)
  })

  test('what is told of a sitter rests on the others alone', () => {
    // The farthest off is 2.0; of the eighteen in the nine parts beside its own none is farther off than 1.9.
    const farthest = heldOutTold(readings)[19]
    expect(farthest?.error).toBeCloseTo(-2, 9)
    expect(farthest?.told).toBeLessThan(2)
  })
})

describe('what marks explain', () => {
  test('a value that goes with what is seen leaves nothing, another all of itself', () => {
    const seen = Array.from({ length: 12 }, (_, i) => [i, (i * 5) % 7])
    const explained = seen.map(([a = 0, b = 0]) => 3 + 2 * a - b)
    for (const left of leftOver(seen, explained)) expect(left).toBeCloseTo(0, 6)
    const odd = explained.map((value, i) => (i === 5 ? value + 4 : value))
    expect(leftOver(seen, odd)[5]).toBeCloseTo(4, 6)
  })

  test('places are in distances between the pupils, however the head leans', () => {
    const points = Array.from({ length: 189 }, (): [number, number] => [0, 0])
    const mark = { file: 'a.jpg', chin: [0, 0] as [number, number], points }
    points[54] = [20, 60]
    const level = sightings({ ...mark, leftPupil: [-50, 0], rightPupil: [50, 0] })
    expect(level.turn[0]).toBeCloseTo(0.2, 9)
    expect(level.nod[0]).toBeCloseTo(0.6, 9)
    // The same turned by a quarter, clockwise in the frame.
    points[54] = [-60, 20]
    const leaning = sightings({ ...mark, leftPupil: [0, -50], rightPupil: [0, 50] })
    expect(leaning.turn[0]).toBeCloseTo(0.2, 9)
    expect(leaning.nod[0]).toBeCloseTo(0.6, 9)
  })
})

describe('the diagram', () => {
  // Standard normal table: 68.27 % within one standard deviation, 95 % within 1.96.
  test('the ideal is the normal distribution of which 95 of 100 are within the error told', () => {
    expect(idealShare(1)).toBeCloseTo(0.95, 4)
    expect(idealShare(1 / 1.96)).toBeCloseTo(0.6827, 4)
    expect(idealShare(0)).toBeCloseTo(0, 6)
  })

  test('a panel a measure, a line a set, the same each time', () => {
    const shares = FACTORS.map((factor) => idealShare(factor))
    const panels = [
      { title: 'tilt, degrees', curves: [{ set: 'drawn', pictures: 70, shares }] },
      { title: 'turn, degrees', curves: [{ set: 'drawn', pictures: 69, shares }] },
    ]
    const svg = diagram(panels)
    expect(svg).toBe(diagram(panels))
    expect(svg.match(/font-weight="bold"/g)).toHaveLength(2)
    expect(svg).toContain('70 pictures')
    expect(svg).toContain('69 pictures')
    expect(FACTORS).toContain(1)
    expect([FACTORS[0], FACTORS.at(-1)]).toEqual([0.25, 2])
  })
})
