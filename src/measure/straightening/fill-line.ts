/** Where the picture itself begins along one side: its depth at the first position, and by how much it grows with each. */
export interface FillLine {
  /** Px inward from the frame's edge; below 0 where the line has left the frame. */
  readonly start: number
  /** Px inward for each px clockwise along the side: the tangent of the angle by which the picture was turned. */
  readonly slope: number
}

/** One line for each side, in the order of SIDES; null where nothing was filled. */
export type FillLines = readonly (FillLine | null)[]

export function depthAt({ start, slope }: FillLine, position: number): number {
  return start + slope * position
}

/** The positions between which the line lies within the frame. */
export function rangeOf({ start, slope }: FillLine, length: number): { from: number; to: number } {
  if (slope === 0) return start > 0 ? { from: 0, to: length } : { from: 0, to: 0 }
  const crossing = Math.min(length, Math.max(0, -start / slope))
  return slope < 0 ? { from: 0, to: crossing } : { from: crossing, to: length }
}
