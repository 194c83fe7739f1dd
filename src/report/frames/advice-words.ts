import type { Advice, AdviceSide } from '../../frames/advice.ts'
import { hueWord } from '../../rules/backdrop/hue.ts'
import { stopText } from '../../rules/judging/stops.ts'
import { asked, atLeast, listed } from '../../text/quantity.ts'

/** What the photographer is to change, in one short sentence to be read from a distance. */
export function adviceSentence(advice: Advice): string {
  return SENTENCES[advice.code](advice)
}

type Words = (advice: Advice) => string

const SENTENCES: Readonly<Record<Advice['code'], Words>> = {
  'copy-again': () => 'Copy the frame again: the file is damaged.',
  'one-person': () => 'The sitter alone in the frame, with the face in view.',
  spec: ({ rules }) => `No picture meets ${named(rules)} together: correct the spec.`,
  'too-few-pixels': () =>
    'Too few pixels for the order at any distance: shoot at full size, or use another camera.',
  'turn-camera': () => 'Turn the camera by 90°.',
  'step-back': ({ pct = 0 }) => `Step back or zoom out by ${whole(pct)}.`,
  'step-closer': ({ pct = 0 }) => `Step closer or zoom in by ${whole(pct)}.`,
  aim: ({ side = 'none', pct }) =>
    pct === undefined
      ? 'The head is cut: aim higher or step back.'
      : `${AIMS[side] ?? 'Aim anew'} by ${whole(pct)} of the frame.`,
  'clear-edge': ({ side = 'none' }) =>
    `Clear the ${EDGES[side] ?? 'edge'} of the frame, or widen the backdrop.`,
  'level-camera': ({ deg = 0, side = 'none' }) =>
    `Level the camera or the head: ${atLeast(deg, '°')} ${side} in the frame.`,
  pose: ({ rules }) =>
    `No crop meets ${named(rules)} together for this head: raise or lower the chin, or check the spec.`,
  'turn-head': ({ deg = 0, side = 'none' }) =>
    `Turn the face ${atLeast(deg, '°')} to the ${side} of the frame.`,
  'nod-head': ({ deg = 0, side = 'none' }) => `Chin ${side} by ${atLeast(deg, '°')}.`,
  focus: () => 'Focus on the eyes.',
  'tip-spectacles': () => 'Tip the spectacles down, or raise the light.',
  'face-light': ({ side }) =>
    side === 'up'
      ? 'More light on the face: shadows are clipped.'
      : 'Less light on the face: skin is clipped.',
  'move-key': ({ side = 'none' }) =>
    side === 'none' ? 'Even out the light on the face.' : `Move the key light to the ${side} of the frame.`,
  fill: ({ stops = 0 }) => `${amount(stops)} fill on the face.`,
  'light-backdrop': ({ stops, side }) =>
    `${stops === undefined ? 'Other' : amount(stops)} light on the backdrop${side ? `, ${side} side` : ''}.`,
  'even-backdrop': () => 'Light the backdrop more evenly.',
  'plain-backdrop': () => 'Put the sitter before the plain backdrop.',
  'neutral-backdrop': ({ hueDeg }) =>
    `The backdrop is ${hueDeg === undefined ? 'tinted' : `tinted ${hueWord(hueDeg)}`}: check white balance and stray light.`,
  'white-balance': () => 'Set the white balance: skin has a cast.',
  'shoot-again': ({ rule }) => `Shoot again: see ${rule}.`,
  check: ({ rule }) => `Check ${rule} by eye.`,
}

const AIMS: Partial<Record<AdviceSide, string>> = {
  up: 'Aim higher, or raise the camera,',
  down: 'Aim lower, or lower the camera,',
  left: 'Aim to the left',
  right: 'Aim to the right',
}

const EDGES: Partial<Record<AdviceSide, string>> = {
  up: 'top',
  down: 'bottom',
  left: 'left edge',
  right: 'right edge',
}

/** "0.3 stop more". */
function amount(stops: number): string {
  const size = atLeast(Math.abs(stops), '')
  return `${stopText(size)} ${stops > 0 ? 'more' : 'less'}`
}

/** An amount to change by, in whole percent and at least one. */
function whole(pct: number): string {
  return asked(Math.max(1, Math.ceil(pct - ROUNDING)), ' %')
}

/** Rounding, which must not add a percent, %. @choice far above double precision, far below what shows */
const ROUNDING = 1e-6

function named(rules: readonly string[] = []): string {
  return (
    listed(rules.map((rule) => (rule === 'whole-head' ? 'the whole head in the frame' : rule))) ||
    'the limits'
  )
}
