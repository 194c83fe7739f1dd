/** A rectangle in px of the frame: edges, right and bottom not included. */
export interface Rect {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

interface Place {
  readonly x: number
  readonly y: number
}

/**
 * The rectangles in the frame that hold `place` and none of the intrusions, each as large as it can be: a crop
 * leaves every intrusion out above, below, left or right of it. At most (n + 1)^3 for n intrusions.
 */
export function roomsIn(frame: Rect, intrusions: readonly Rect[], place: Place): Rect[] {
  const tops = [frame.top, ...intrusions.map(({ bottom }) => bottom).filter((bottom) => bottom <= place.y)]
  const lefts = [frame.left, ...intrusions.map(({ right }) => right).filter((right) => right <= place.x)]
  const rights = [frame.right, ...intrusions.map(({ left }) => left).filter((left) => left >= place.x)]
  const rooms = distinct(tops).flatMap((top) =>
    distinct(lefts).flatMap((left) =>
      distinct(rights).map((right) => ({ left, top, right, bottom: floorOf(intrusions, top, left, right) })),
    ),
  )
  const holding = rooms
    .map((room) => ({ ...room, bottom: Math.min(room.bottom, frame.bottom) }))
    .filter((room) => room.bottom >= place.y)
  return holding.filter((room) => !holding.some((other) => other !== room && contains(other, room)))
}

/** The top of the highest intrusion that none of the three edges leaves out. */
function floorOf(intrusions: readonly Rect[], top: number, left: number, right: number): number {
  const inside = intrusions.filter((each) => each.bottom > top && each.right > left && each.left < right)
  return Math.min(Infinity, ...inside.map((each) => each.top))
}

function contains(outer: Rect, inner: Rect): boolean {
  return (
    outer.left <= inner.left &&
    outer.top <= inner.top &&
    outer.right >= inner.right &&
    outer.bottom >= inner.bottom
  )
}

function distinct(values: readonly number[]): number[] {
  return [...new Set(values)]
}
