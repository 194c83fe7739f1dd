/** A box around a face by its middle. */
export interface FaceBox {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/** Share of their union that two boxes have in common beyond which they are of one face. @source the graphs of MediaPipe Face Detection (from memory). */
const MOST_OVERLAP = 0.3

/** Whether two boxes are around the same face. */
export function areOfOneFace(a: FaceBox, b: FaceBox): boolean {
  const both = shared(a.x, a.width, b.x, b.width) * shared(a.y, a.height, b.y, b.height)
  return both > MOST_OVERLAP * (a.width * a.height + b.width * b.height - both)
}

function shared(middleA: number, lengthA: number, middleB: number, lengthB: number): number {
  const end = Math.min(middleA + lengthA / 2, middleB + lengthB / 2)
  return Math.max(0, end - Math.max(middleA - lengthA / 2, middleB - lengthB / 2))
}
