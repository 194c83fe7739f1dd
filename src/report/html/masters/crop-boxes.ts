import { html, type Markup } from '../markup.ts'
import { blank, imageOf, NO_PICTURE, round } from '../picture.ts'
import type { Place, ShownFile, ShownMaster } from './shown-master.ts'

/** How many deliverables have a line of their own; more begin anew. */
const KINDS = 5
const TEXT_PX = 12

/** Class of the line that stands for a deliverable. */
export function lineOf(deliverable: string | null, deliverables: readonly string[]): string {
  return `crop-${1 + (Math.max(0, deliverables.indexOf(deliverable ?? '')) % KINDS)}`
}

/** A master with the crop of each file drawn on it, named by its deliverable. */
export function croppedMaster(
  { file, picture, size, files }: ShownMaster,
  deliverables: readonly string[],
): Markup {
  const frame = picture ?? fitted(size)
  const drawn = files.filter(({ corners }) => corners.length > 0)
  const alt = [
    `The master ${file}.`,
    picture ? '' : 'The picture can’t be shown.',
    drawn.length > 0 ? `Drawn on it: the crops for ${drawn.map(nameOf).join(', ')}.` : '',
  ]
  const boxes = drawn.map((one) => {
    const points = one.corners.map((corner) => pointOn(corner, frame)).join(' ')
    return html`<polygon class="halo" points="${points}"/><polygon class="box ${lineOf(one.deliverable, deliverables)}" points="${points}"/>`
  })
  const names = drawn.map((one, index) => named(one, index, frame))
  const shown = picture ? imageOf(picture) : blank(frame)
  return html`<svg class="portrait" viewBox="0 0 ${frame.widthPx} ${frame.heightPx}" role="img" aria-label="${alt.filter(Boolean).join(' ')}">${shown}<g class="overlay">
${boxes}${names}</g></svg>`
}

function nameOf({ deliverable, file }: ShownFile): string {
  return deliverable ?? file ?? ''
}

type Frame = NonNullable<ShownMaster['size']>

/** In the shape of the master, as large as a picture of it would be. */
function fitted(size: ShownMaster['size']): Frame {
  if (!size) return NO_PICTURE
  const scale = NO_PICTURE.heightPx / Math.max(size.widthPx, size.heightPx)
  return { widthPx: Math.round(size.widthPx * scale), heightPx: Math.round(size.heightPx * scale) }
}

function pointOn({ x, y }: Place, { widthPx, heightPx }: Frame): string {
  return `${round(x * widthPx)},${round(y * heightPx)}`
}

/** Inside its box, at one corner after the other, since boxes lie within each other. */
function named(one: ShownFile, index: number, { widthPx, heightPx }: Frame): Markup {
  const xs = one.corners.map(({ x }) => x * widthPx)
  const ys = one.corners.map(({ y }) => y * heightPx)
  const isRight = index % 2 === 1
  const isLow = index % 4 < 2
  // The fifth stands a line above or below the first.
  const lines = 1 + Math.floor(index / 4)
  const x = isRight ? Math.max(...xs) - 5 : Math.min(...xs) + 5
  const y = isLow ? Math.max(...ys) - 6 - (lines - 1) * TEXT_PX : Math.min(...ys) + 1 + lines * TEXT_PX
  return html`<text x="${round(x)}" y="${round(y)}"${isRight ? html` text-anchor="end"` : null}>${nameOf(one)}</text>`
}
