import { filtered, fromHex, mix, type Rgb } from './color.ts'
import { moved, type Point, smooth } from './path.ts'
import { blurred, crisp, fill, line } from './scene.ts'

export interface Cloth {
  readonly color: Rgb
  readonly light: Rgb
  readonly dark: Rgb
}

/** Headwear in drawing order: behind the face and over it. */
export interface Headwear {
  readonly behind: string
  readonly over: string
}

export function clothOf(hex: string): Cloth {
  const color = fromHex(hex)
  return { color, light: mix(color, [255, 255, 255], 0.28), dark: filtered(color, [0.56, 0.55, 0.59]) }
}

/** Soft folds: a dark valley with a light ridge beside it. */
export function folds(cloth: Cloth, runs: readonly (readonly Point[])[]): string {
  const marks = runs.flatMap((run) => [
    line(smooth(run), cloth.dark, 3.2, 0.6),
    line(smooth(moved(run, 1.5, -3.2)), cloth.light, 3, 0.5),
  ])
  return blurred(2, ...marks)
}

/** Cloth within an outline (a second subpath is an opening), shaded along its edge; `content` lies on it and ends with it. */
export function clothWithin(id: string, outline: string, cloth: Cloth, content: string): string {
  const shape = crisp(fill(outline, cloth.color)).replace('<path', '<path fill-rule="evenodd"')
  return [
    `<clipPath id="${id}"><path clip-rule="evenodd" d="${outline}"/></clipPath>`,
    `<g clip-path="url(#${id})">${shape}${content}${blurred(8, line(outline, cloth.dark, 15, 0.5))}</g>`,
  ].join('')
}

/** A shadow of headwear's rim on the skin. */
export function rimShadow(rim: string, color: Rgb): string {
  return `<g clip-path="url(#head)">${blurred(2.5, line(rim, color, 5, 0.5))}</g>`
}
