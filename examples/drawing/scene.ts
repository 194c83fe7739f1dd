import { mix, type Rgb, toCss } from './color.ts'
import type { Look } from './look.ts'
import type { Moment } from './moment.ts'
import type { Palette } from './palette.ts'
import { mm, type Point, smooth } from './path.ts'
import type { Random } from './random.ts'
import type { Reflections } from './reflections.ts'
import { softEdge, softEllipse, softStrokes } from './soft.ts'

/** What every part of the drawing needs to know. Parts draw in millimeters, origin between the eyes. */
export interface Scene {
  readonly look: Look
  readonly palette: Palette
  /** -1 when the key light comes from the left of the frame, 1 from the right. */
  readonly key: -1 | 1
  readonly random: Random
  readonly reflections: Reflections
  readonly moment: Moment
}

/** A shape that can be painted with a sharp edge (0) or one blurred by a Gaussian of so many millimeters. */
export type Mark = (sigma: number) => string

export function blurred(sigma: number, ...marks: Mark[]): string {
  return marks.map((mark) => mark(sigma)).join('')
}

export function crisp(...marks: Mark[]): string {
  return blurred(0, ...marks)
}

export function together(...marks: Mark[]): Mark {
  return (sigma) => blurred(sigma, ...marks)
}

/** A filled outline; when it is see-through, its edge stays sharp. */
export function fill(path: string, color: Rgb, opacity = 1): Mark {
  const solid = `<path d="${path}" fill="${toCss(color)}" fill-opacity="${mm(opacity)}"/>`
  return (sigma) => (sigma > 0 && opacity === 1 ? softEdge(path, color, sigma) + solid : solid)
}

export function line(path: string, color: Rgb, width: number, opacity = 1): Mark {
  return (sigma) =>
    sigma > 0
      ? softStrokes(path, color, width, opacity, sigma)
      : `<path d="${path}" fill="none" stroke="${toCss(color)}" stroke-width="${mm(width)}" stroke-linecap="round" stroke-linejoin="round" stroke-opacity="${mm(opacity)}"/>`
}

export function ellipse(center: Point, radii: Point, color: Rgb, opacity = 1, turnDeg = 0): Mark {
  const turn = turnDeg === 0 ? '' : ` transform="rotate(${mm(turnDeg)} ${mm(center[0])} ${mm(center[1])})"`
  return (sigma) =>
    sigma > 0
      ? softEllipse(center, radii, color, opacity, sigma, turnDeg)
      : `<ellipse cx="${mm(center[0])}" cy="${mm(center[1])}" rx="${mm(radii[0])}" ry="${mm(radii[1])}" fill="${toCss(color)}" fill-opacity="${mm(opacity)}"${turn}/>`
}

/** The same shape on both sides of the face. */
export function bothSides(shape: (side: -1 | 1) => Mark): Mark {
  return together(shape(-1), shape(1))
}

export function curve(...points: Point[]): string {
  return smooth(points)
}

/** A strand's color: the hair's own, a little lighter or darker. */
export function strandColor(palette: Palette, random: Random): Rgb {
  const share = random.next()
  return share < 0.5
    ? mix(palette.hair, palette.hairDark, random.next() * 0.9)
    : mix(palette.hair, palette.hairLight, random.next() * (share > 0.85 ? 0.95 : 0.5))
}
