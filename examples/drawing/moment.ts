/** What changes from one frame of a sitting to the next while the sitter stays the same. */
export interface Moment {
  /** How far the corners of the mouth rise, in mm: -2 sullen, 0 at rest, 5 a broad smile. */
  readonly smile: number
  /** Gap between the lips, in mm; the upper teeth show in it. 0 to about 8. */
  readonly mouthOpen: number
  /** Opening of the eyes as a multiple of the sitter's own: 0.15 a blink, 1 at rest, 1.25 wide open. */
  readonly eyes: number
  /** Turn of the head in degrees, positive to the right of the frame. Drawn by parallax, so up to about 10. */
  readonly turnDeg: number
}

export const AT_REST: Moment = { smile: 0, mouthOpen: 0, eyes: 1, turnDeg: 0 }

/**
 * How far parts lie before the plane of the irises, in mm; negative behind it. Rounded from the depths of an adult head
 * (eye to tip of the nose about 30 mm, eye to the ear's opening about 85 mm; from memory, for the drawing only).
 */
const DEPTHS = { nose: 26, mouth: 14, beard: 8, brows: 8, spectacles: 14, face: -30, ears: -75, hair: -45 }
export type Part = keyof typeof DEPTHS

/** A part of the head, moved as a turn moves what lies at its depth. */
export function turned(part: Part, { turnDeg }: Moment, content: string): string {
  if (turnDeg === 0 || content === '') return content
  const shift = DEPTHS[part] * Math.sin((turnDeg * Math.PI) / 180)
  return `<g transform="translate(${shift.toFixed(2)} 0)">${content}</g>`
}
