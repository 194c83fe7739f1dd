import { html, type Markup } from '../../report/html/markup.ts'
import { type DriftTrait, MEANINGS } from '../../session/drift-traits.ts'
import { quantity } from '../../text/quantity.ts'
import type { Course } from '../session-drift.ts'

/** What is drawn, with its unit: what drifts on a set. */
const DRAWN: readonly (readonly [DriftTrait, string, string])[] = [
  ['backdrop-lightness', 'Backdrop', ' stop'],
  ['backdrop-tint-a', 'Tint, green to red', ' a*'],
  ['backdrop-tint-b', 'Tint, blue to yellow', ' b*'],
  ['backdrop-unevenness', 'Unevenness', ' L*'],
  ['key-ratio', 'Key light', ' stop'],
  ['head-size', 'Head size', ' %'],
  ['eye-line', 'Eye line', ' %'],
]

/** Frames drawn. @choice more points than that run into one line; no source. */
const MOST = 200

const [WIDTH, HEIGHT, RADIUS] = [240, 56, 3]

/** The strip of the session's course: each trait frame by frame, and since when it has changed for good. */
export function courseStrip({ frames, drifts }: Course): Markup {
  const latest = { frames: frames.slice(-MOST), drifts }
  const plots = latest.frames.length < 2 ? [] : DRAWN.flatMap((drawn) => plot(drawn, latest) ?? [])
  if (plots.length === 0) return html``
  return html`<h2>Since the session began</h2><div class="plots">${plots}</div>`
}

function plot([trait, name, unit]: (typeof DRAWN)[number], { frames, drifts }: Course): Markup | null {
  const values = frames.map(({ traits }) => traits[trait])
  const given = values.filter((value) => value !== null)
  if (given.length < 2) return null
  // As high as a change that would be told at least, so that a steady session looks steady.
  const { least } = MEANINGS[trait]
  const middle = (Math.min(...given) + Math.max(...given)) / 2
  const half = Math.max(2 * least, Math.max(...given) - middle) * 1.1
  const x = (n: number) => (RADIUS + (n / (values.length - 1)) * (WIDTH - 2 * RADIUS)).toFixed(1)
  const y = (value: number) => ((HEIGHT / 2) * (1 - (value - middle) / half)).toFixed(1)
  const drift = drifts.find(({ drift }) => trait.startsWith(drift.trait))?.drift
  // What began before the first one that is drawn holds for all.
  const since = drift
    ? Math.max(
        0,
        frames.findIndex(({ file }) => file === drift.file),
      )
    : Infinity
  const points = values.map((value, n) =>
    value === null
      ? null
      : html`<circle cx="${x(n)}" cy="${y(value)}" r="${RADIUS}"${n >= since ? html` class="since"` : null}/>`,
  )
  const [first = 0] = given
  const change = (given.at(-1) ?? 0) - first
  const size = quantity(change, unit)
  const words = change > 0 && size !== `0${unit}` ? `+${size}` : size
  return html`<figure class="plot"><figcaption>${name} <span class="small">${words}</span></figcaption><svg viewBox="0 0 ${WIDTH} ${HEIGHT}" aria-hidden="true"><path d="M0 ${y(first)}H${WIDTH}"/>${points}</svg></figure>`
}
