import { expect, test } from 'vitest'
import { placeBefore, placeOn, turnedBy } from '../../src/framing/turned.ts'

const PICTURE = { widthPx: 1400, heightPx: 1500 }

test.each([0, 2.5, -7])('a place of a picture turned by %d degrees is found again', (deg) => {
  const turned = turnedBy(deg, PICTURE)
  const found = placeBefore(turned, placeOn(turned, { x: 120, y: 1300 }))
  expect(found.x).toBeCloseTo(120, 9)
  expect(found.y).toBeCloseTo(1300, 9)
})

test('turned clockwise, the right edge goes down: its middle on the canvas was higher up before', () => {
  const turned = turnedBy(10, PICTURE)
  const { widthPx, heightPx } = turned.canvas
  const before = placeBefore(turned, { x: widthPx, y: heightPx / 2 })
  // Half the canvas's width, turned back by 10 degrees.
  expect(before.y).toBeCloseTo(PICTURE.heightPx / 2 - (widthPx / 2) * Math.sin((10 * Math.PI) / 180), 6)
})
