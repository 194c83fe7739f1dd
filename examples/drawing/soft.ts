import { type Rgb, toCss } from './color.ts'
import { mm, type Point } from './path.ts'

/**
 * Soft edges without filters: an SVG blur costs a pass over the whole canvas for every shape, stacked strokes and
 * gradients next to nothing.
 */

/** Abramowitz and Stegun 7.1.26; good to 1.5e-7. */
function erf(x: number): number {
  const t = 1 / (1 + 0.3275911 * Math.abs(x))
  const tail =
    ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) *
    t *
    Math.exp(-x * x)
  return Math.sign(x) * (1 - tail)
}

/** Strokes that add up to a line of `width` mm blurred by `sigma` mm. */
export function softStrokes(path: string, color: Rgb, width: number, opacity: number, sigma: number): string {
  const coverage = (x: number): number =>
    (erf((x + width / 2) / (Math.SQRT2 * sigma)) - erf((x - width / 2) / (Math.SQRT2 * sigma))) / 2
  return stacked(path, color, width / 2 + 2.4 * sigma, sigma, (x) => opacity * coverage(x))
}

/** Strokes along an outline that carry its filling softly outwards. */
export function softEdge(path: string, color: Rgb, sigma: number): string {
  return stacked(path, color, 2.4 * sigma, sigma, (x) => 0.5 * (1 - erf(x / (Math.SQRT2 * sigma))))
}

/** Strokes from wide to narrow whose opacities together follow `profile` of the distance from the path's middle. */
function stacked(
  path: string,
  color: Rgb,
  reach: number,
  sigma: number,
  profile: (x: number) => number,
): string {
  const steps = sigma >= 4 ? 14 : sigma >= 2 ? 9 : 5
  const css = toCss(color)
  let clear = 1
  let strokes = ''
  for (let step = 0; step < steps; step++) {
    const outer = reach * (1 - step / steps)
    const wanted = 1 - Math.min(0.995, profile(outer - reach / steps / 2))
    const alpha = Math.max(0, 1 - wanted / clear)
    clear *= 1 - alpha
    if (alpha < 0.002) continue
    strokes += `<path d="${path}" stroke="${css}" stroke-width="${mm(2 * outer)}" stroke-opacity="${alpha.toFixed(4)}"/>`
  }
  return `<g fill="none" stroke-linecap="round" stroke-linejoin="round">${strokes}</g>`
}

/** An ellipse blurred by `sigma` mm, painted with a gradient. */
export function softEllipse(
  center: Point,
  radii: Point,
  color: Rgb,
  opacity: number,
  sigma: number,
  turnDeg: number,
): string {
  const radius = Math.sqrt(radii[0] * radii[1])
  const reach = 2.4 * sigma
  const peak = 1 - Math.exp(-(radius ** 2) / (2 * sigma ** 2))
  const edge = (x: number): number => 0.5 * (1 - erf((x - radius) / (Math.SQRT2 * sigma)))
  const css = toCss(color)
  const stops = Array.from({ length: 9 }, (_, step) => {
    const alpha = (opacity * peak * edge(((radius + reach) * step) / 8)) / edge(0)
    return `<stop offset="${step / 8}" stop-color="${css}" stop-opacity="${(step === 8 ? 0 : alpha).toFixed(3)}"/>`
  }).join('')
  const id = `soft${css}-${mm(radius)}-${sigma}-${mm(opacity)}`.replace(/[^\w-]/g, '_')
  const turn = turnDeg === 0 ? '' : ` transform="rotate(${mm(turnDeg)} ${mm(center[0])} ${mm(center[1])})"`
  return `<radialGradient id="${id}">${stops}</radialGradient><ellipse cx="${mm(center[0])}" cy="${mm(center[1])}" rx="${mm(radii[0] + reach)}" ry="${mm(radii[1] + reach)}" fill="url(#${id})"${turn}/>`
}
