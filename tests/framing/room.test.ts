import { describe, expect, test } from 'vitest'
import { type Rect, roomsIn } from '../../src/framing/room.ts'
import { seeded } from '../random.ts'

const rect = (left: number, top: number, right: number, bottom: number): Rect => ({
  left,
  top,
  right,
  bottom,
})
const FRAME = rect(0, 0, 100, 100)
const MIDDLE = { x: 50, y: 50 }

describe('roomsIn', () => {
  test('no intrusions: the frame', () => {
    expect(roomsIn(FRAME, [], MIDDLE)).toEqual([FRAME])
  })

  test('a stand along the whole left edge leaves what is right of it', () => {
    expect(roomsIn(FRAME, [rect(0, 0, 10, 100)], MIDDLE)).toEqual([rect(10, 0, 100, 100)])
  })

  test('a corner is left out beside or below', () => {
    const rooms = roomsIn(FRAME, [rect(0, 0, 10, 20)], MIDDLE)
    expect(rooms).toHaveLength(2)
    expect(rooms).toContainEqual(rect(10, 0, 100, 100))
    expect(rooms).toContainEqual(rect(0, 20, 100, 100))
  })

  test('four corners: wide, high, and what lies between', () => {
    const corners = [rect(0, 0, 10, 20), rect(90, 0, 100, 20), rect(0, 80, 10, 100), rect(90, 80, 100, 100)]
    const rooms = roomsIn(FRAME, corners, MIDDLE)
    expect(rooms).toContainEqual(rect(10, 0, 90, 100))
    expect(rooms).toContainEqual(rect(0, 20, 100, 80))
  })

  test('something over the place itself leaves nothing', () => {
    expect(roomsIn(FRAME, [rect(40, 40, 60, 60)], MIDDLE)).toEqual([])
  })

  test('the rooms hold every rectangle that is free of intrusions, and nothing else', () => {
    const random = seeded(5)
    const upTo = (n: number) => Math.floor(random() * (n + 1))
    const frame = rect(0, 0, 8, 8)
    const place = { x: 4, y: 4 }
    const overlaps = (a: Rect, b: Rect) =>
      a.left < b.right && a.right > b.left && a.top < b.bottom && a.bottom > b.top
    const holds = (a: Rect, b: Rect) =>
      a.left <= b.left && a.top <= b.top && a.right >= b.right && a.bottom >= b.bottom
    const all: Rect[] = []
    for (let left = 0; left <= 4; left++)
      for (let top = 0; top <= 4; top++)
        for (let right = 5; right <= 8; right++)
          for (let bottom = 5; bottom <= 8; bottom++) all.push(rect(left, top, right, bottom))
    for (let i = 0; i < 300; i++) {
      const intrusions = Array.from({ length: upTo(4) }, () => {
        const [left, top] = [upTo(7), upTo(7)]
        return rect(left, top, left + 1 + upTo(7 - left), top + 1 + upTo(7 - top))
      })
      const rooms = roomsIn(frame, intrusions, place)
      const wrong = all.filter((each) => {
        const free = !intrusions.some((intrusion) => overlaps(each, intrusion))
        return rooms.some((room) => holds(room, each)) !== free
      })
      expect(wrong, JSON.stringify(intrusions)).toEqual([])
    }
  })
})
