import type { FrameCrop } from '../../frames/frame-report.ts'
import { html, type Markup } from '../../report/html/markup.ts'
import type { JudgedFrame, NamedCrop } from '../judged-frame.ts'

interface Size {
  readonly widthPx: number
  readonly heightPx: number
}

// Of a frame whose size nobody knows.
const NO_SIZE: Size = { widthPx: 3, heightPx: 4 }

/** A frame with the crop of each deliverable drawn on it. */
export function framePicture({ frame, size, crops }: JudgedFrame): Markup {
  const { widthPx, heightPx } = size ?? NO_SIZE
  const words = crops.map(({ deliverable }) => deliverable).join(', ')
  const label = `${frame.files[0] ?? ''}${words && `, with the crops for ${words}`}`
  return html`<svg class="picture" viewBox="0 0 ${widthPx} ${heightPx}" role="img" aria-label="${label}"><rect class="blank" width="${widthPx}" height="${heightPx}"/>${image(frame.digest, { widthPx, heightPx })}${crops.map((crop, n) => cropBox(crop, n, { widthPx, heightPx }))}</svg>`
}

/** The part of a frame that a deliverable would show; the whole frame where there is no crop. */
export function croppedPicture({ frame, size, crops }: JudgedFrame, label: string): Markup {
  const whole = size ?? NO_SIZE
  const crop = largest(crops)
  if (!crop)
    return html`<svg class="choice" viewBox="0 0 ${whole.widthPx} ${whole.heightPx}" role="img" aria-label="${label}">${image(frame.digest, whole)}</svg>`
  const view = [crop.leftPx, crop.topPx, crop.widthPx, crop.heightPx]
  return html`<svg class="choice" viewBox="${view.map(px).join(' ')}" role="img" aria-label="${label}"><g transform="${onCanvas(crop, whole)}">${image(frame.digest, whole)}</g></svg>`
}

/** Of several crops the one that shows most. */
function largest(crops: readonly NamedCrop[]): FrameCrop | null {
  const areaOf = ({ crop: { widthPx, heightPx } }: NamedCrop) => widthPx * heightPx
  return crops.toSorted((a, b) => areaOf(b) - areaOf(a))[0]?.crop ?? null
}

function image(digest: string, { widthPx, heightPx }: Size): Markup {
  return html`<image width="${widthPx}" height="${heightPx}" href="picture/${digest}"/>`
}

function cropBox({ deliverable, crop }: NamedCrop, n: number, whole: Size): Markup {
  const { leftPx, topPx, widthPx, heightPx } = crop
  const size = Math.max(whole.widthPx, whole.heightPx) / 36
  // Names stand in the lower corners, where the sitter's clothes are, so that two boxes don't cover each other's.
  const isLeft = n % 2 === 0
  const at = html`x="${px(isLeft ? leftPx + size / 3 : leftPx + widthPx - size / 3)}" y="${px(topPx + heightPx - size / 2)}" font-size="${px(size)}" text-anchor="${isLeft ? 'start' : 'end'}"`
  const place = html`x="${leftPx}" y="${topPx}" width="${widthPx}" height="${heightPx}"`
  return html`<g transform="${fromCanvas(crop, whole)}"><rect class="halo" ${place}/><rect class="crop crop-${n % 3}" ${place}/><text ${at}>${deliverable}</text></g>`
}

/** Puts a frame on the canvas that it is turned on: both have one middle. */
function onCanvas({ turnDeg, canvas }: FrameCrop, { widthPx, heightPx }: Size): string {
  const move = `translate(${px((canvas.widthPx - widthPx) / 2)} ${px((canvas.heightPx - heightPx) / 2)})`
  return `${move} rotate(${px(turnDeg)} ${px(widthPx / 2)} ${px(heightPx / 2)})`
}

/** Puts what is drawn on that canvas on the frame as it is. */
function fromCanvas({ turnDeg, canvas }: FrameCrop, { widthPx, heightPx }: Size): string {
  const turn = `rotate(${px(-turnDeg)} ${px(widthPx / 2)} ${px(heightPx / 2)})`
  return `${turn} translate(${px((widthPx - canvas.widthPx) / 2)} ${px((heightPx - canvas.heightPx) / 2)})`
}

function px(value: number): string {
  return value.toFixed(1)
}
