import { html, Markup } from './markup.ts'
import { type AskedRange, type Line, type OverlayBox, overlayOf, overlayWords } from './overlay.ts'
import type { SmallPicture } from './pictures.ts'
import type { Portrait } from './portrait.ts'
import { WORDS } from './standing.ts'

interface Size {
  readonly widthPx: number
  readonly heightPx: number
}

// Of a portrait that can't be shown: 4:5, the trade's most common frame (common practice, no source).
export const NO_PICTURE: Size = { widthPx: 320, heightPx: 400 }
const GAUGE_PX = 9
const SMALL_BOX_PX = 40

export function frameOf({ pictures }: Portrait): Size {
  return pictures?.thumbnail ?? NO_PICTURE
}

/** Id of the picture alone, for showing it elsewhere on the page again. */
function pictureId({ id }: Portrait): string {
  return `${id}-picture`
}

/** The picture of the portrait's card, shown again. */
export function usedPicture(portrait: Portrait): Markup {
  return html`<use href="#${pictureId(portrait)}"/>`
}

/** The picture where its card is on another page: smaller, to fill the same frame. */
export function smallPicture({ pictures }: Portrait): Markup {
  const { widthPx, heightPx } = pictures?.thumbnail ?? NO_PICTURE
  if (!pictures) return blank(NO_PICTURE)
  return html`<image width="${widthPx}" height="${heightPx}" href="${dataUrl((pictures.small ?? pictures.thumbnail).jpeg)}"/>`
}

export function blank({ widthPx, heightPx }: Size): Markup {
  return html`<rect class="blank" width="${widthPx}" height="${heightPx}"/><path class="blank-line" d="M0 0 ${widthPx} ${heightPx}M${widthPx} 0 0 ${heightPx}"/>`
}

/** The portrait with what was measured and asked drawn on it. */
export function drawnPortrait(portrait: Portrait): Markup {
  const { file, pictures } = portrait
  const frame = frameOf(portrait)
  const overlay = overlayOf(file)
  const drawn = pictures ? overlayWords(overlay) : []
  const alt = [
    `${WORDS[portrait.standing]}: ${file.file}.`,
    pictures ? '' : 'The picture can’t be shown.',
    drawn.length > 0 ? `Drawn on it: ${drawn.join('; ')}.` : '',
  ]
  const size = html`viewBox="0 0 ${frame.widthPx} ${frame.heightPx}"`
  if (!pictures) {
    return html`<svg class="portrait" ${size} role="img" aria-label="${alt.filter(Boolean).join(' ')}"><g id="${pictureId(portrait)}">${blank(frame)}</g></svg>`
  }
  return html`<svg class="portrait" ${size} role="img" aria-label="${alt.filter(Boolean).join(' ')}">${imageOf(pictures.thumbnail, pictureId(portrait))}<g class="overlay">
${overlay.asked.map((range) => gauge(range, frame))}${overlay.boxes.map((box) => boxed(box, frame))}${overlay.lines.map((line) => ruled(line, frame))}
${overlay.boxes.map((box) => boxName(box, frame))}${overlay.lines.map((line) => lineName(line, frame))}</g></svg>`
}

/** The part around the eyes at 100 %. */
export function eyesPicture({ file, pictures }: Portrait): Markup | null {
  if (!pictures?.eyes) return null
  const { widthPx, heightPx, jpeg } = pictures.eyes
  const alt = `The eyes of ${file.file} at 100 %, pixel for pixel.`
  return html`<figure class="eyes"><div class="scroll" tabindex="0" role="group" aria-label="Eyes at 100 %"><img src="${dataUrl(jpeg)}" width="${widthPx}" height="${heightPx}" alt="${alt}"></div><figcaption>Eyes at 100 %</figcaption></figure>`
}

export function imageOf({ widthPx, heightPx, jpeg }: SmallPicture, id: string | null = null): Markup {
  return html`<image${id === null ? null : html` id="${id}"`} width="${widthPx}" height="${heightPx}" href="${dataUrl(jpeg)}"/>`
}

function dataUrl(jpeg: Buffer): Markup {
  // Base64 holds nothing to escape, and there is much of it.
  return new Markup(`data:image/jpeg;base64,${jpeg.toString('base64')}`)
}

function ruled({ kind, at }: Line, { widthPx, heightPx }: Size): Markup {
  const y = round(at * heightPx)
  const x = round(at * widthPx)
  const path = kind === 'middle' ? `M${x} ${heightPx}V${round(heightPx * 0.9)}` : `M0 ${y}H${widthPx}`
  return html`<path class="halo" d="${path}"/><path class="line ${kind}" d="${path}"/>`
}

function lineName({ kind, label, at }: Line, { widthPx, heightPx }: Size): Markup {
  if (kind === 'middle') return html``
  // Beside the gauge, above the line; under it where the top edge is too near.
  const y = at * heightPx
  return html`<text x="${GAUGE_PX + 4}" y="${round(y < 16 ? y + 13 : y - 4)}">${label}</text><text x="${widthPx - GAUGE_PX - 4}" y="${round(y < 16 ? y + 13 : y - 4)}" text-anchor="end">${round(at * 100)} %</text>`
}

function gauge({ kind, from, to, words }: AskedRange, { widthPx, heightPx }: Size): Markup {
  const title = html`<title>${words}</title>`
  if (kind === 'middle') {
    return html`<rect class="gauge ${kind}" x="${round(from * widthPx)}" y="${heightPx - GAUGE_PX}" width="${round((to - from) * widthPx)}" height="${GAUGE_PX}">${title}</rect>`
  }
  const x = kind === 'crown' ? 0 : widthPx - GAUGE_PX
  return html`<rect class="gauge ${kind}" x="${x}" y="${round(from * heightPx)}" width="${GAUGE_PX}" height="${round((to - from) * heightPx)}">${title}</rect>`
}

function boxed(box: OverlayBox, { widthPx, heightPx }: Size): Markup {
  const place = html`x="${round(box.x * widthPx)}" y="${round(box.y * heightPx)}" width="${round(box.width * widthPx)}" height="${round(box.height * heightPx)}"`
  return html`<rect class="halo" ${place}/><rect class="box ${box.kind}" ${place}/>`
}

function boxName({ kind, label, x, y, width, height }: OverlayBox, { widthPx, heightPx }: Size): Markup {
  if (kind === 'face') return html``
  // Inside at the bottom of a large box, under a small one, which the name would hide.
  const bottom = (y + height) * heightPx
  const under = height * heightPx < SMALL_BOX_PX ? bottom + 11 : bottom - 5
  return html`<text x="${round((x + width / 2) * widthPx)}" y="${round(under)}" text-anchor="middle">${label}</text>`
}

export function round(value: number): number {
  return Math.round(value * 10) / 10
}
