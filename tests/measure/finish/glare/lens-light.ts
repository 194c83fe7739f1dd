/** A light that lenses reflect, as it is added to a photograph. */
export interface CompositeLight {
  /** Share of the lens that it covers, 0 to 1. */
  readonly share: number
  /** Straight edges; straight edges and bars; round. */
  readonly shape: 'softbox' | 'window' | 'umbrella'
  readonly on: 'both' | 'left' | 'right'
  /** Its middle in mm from the middle of the lens. */
  readonly at: readonly [x: number, y: number]
  /** Red, green and blue in linear light, the brightest 1. */
  readonly tint: readonly [number, number, number]
  /** What is added at its brightest, in linear light where white is 1. */
  readonly strength: number
}

/** One lens with its middle at 0, in mm, x away from the nose: 48 mm wide and 38 mm high. */
export const LENS = 'M-23 -8C-22 -17 -14 -19 0 -19C14 -19 25 -18 25 -9C25 5 18 19 1 19C-14 19 -22 10 -23 -8Z'
const LENS_AREA = 1490

/** The shape of a light as SVG in gray, in mm from the middle of the lens; its area is `share` of the lens. */
export function lightShape({ share, shape, at: [x, y] }: CompositeLight): string {
  if (share >= 1) return `<rect x="-40" y="-40" width="80" height="80" fill="url(#fall)"/>`
  const area = share * LENS_AREA
  if (shape === 'umbrella') {
    const radius = Math.sqrt(area / Math.PI / 1.2)
    return `<ellipse cx="${x}" cy="${y}" rx="${1.2 * radius}" ry="${radius}" fill="url(#fall)" transform="rotate(14 ${x} ${y})"/>`
  }
  const height = Math.sqrt(area * 1.25)
  const width = area / height
  const [left, top] = [x - width / 2, y - height / 2]
  const turn = `transform="rotate(-9 ${x} ${y})"`
  if (shape === 'softbox')
    return `<rect x="${left}" y="${top}" width="${width}" height="${height}" rx="${0.06 * width}" fill="url(#fall)" ${turn}/>`
  // Panes between bars of an eleventh of the window: a little larger, so that the glass is as large as asked.
  const grow = 1.1
  const bar = 0.09
  const pane = (column: number, row: number) => {
    const w = grow * width
    const h = grow * height
    const px = x - w / 2 + column * w * (0.5 + bar / 2)
    const py = y - h / 2 + row * h * (0.5 + bar / 2)
    return `<rect x="${px}" y="${py}" width="${w * (0.5 - bar / 2)}" height="${h * (0.5 - bar / 2)}" fill="url(#fall)"/>`
  }
  return `<g ${turn}>${pane(0, 0)}${pane(1, 0)}${pane(0, 1)}${pane(1, 1)}</g>`
}
