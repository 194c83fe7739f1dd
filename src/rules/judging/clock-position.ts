/** A place on a disc, from its middle to the right and down, in radii. */
interface Place {
  readonly across: number
  readonly down: number
}

/** Radius below which a place is the middle. @choice no source: a light so near to it is at no side. */
const MIDDLE = 0.1

/** Hours around a clock, and radians in a turn. @choice definition. */
const HOURS = 12

/** Where a catchlight stands, as the trade says it: "10 o'clock"; "the center". */
export function clockPosition({ across, down }: Place): string {
  if (Math.hypot(across, down) < MIDDLE) return 'the center'
  const hour = Math.round((Math.atan2(across, -down) / (2 * Math.PI)) * HOURS)
  return `${((hour + HOURS - 1) % HOURS) + 1} o'clock`
}
