import { html, Markup } from '../../report/html/markup.ts'
import type { JudgedFrame } from '../judged-frame.ts'
import type { Standing } from '../sitters.ts'

/** Words for how far a sitter is. */
export const STANDING_WORDS: Readonly<Record<Standing, string>> = {
  'not-yet': 'not yet',
  photographed: 'photographed, nothing usable',
  'to-look-at': 'photographed, to be looked at',
  usable: 'has a usable frame',
  picked: 'has picked',
}

// A shape each, so that color is never alone: an empty ring, a cross, a half disk, a disk, a disk with a check.
const STANDING_PATHS: Readonly<Record<Standing, string>> = {
  'not-yet': '<circle cx="8" cy="8" r="6" fill="none"/>',
  photographed: '<circle cx="8" cy="8" r="6" fill="none"/><path d="M5.2 5.2l5.6 5.6M10.8 5.2l-5.6 5.6"/>',
  'to-look-at': '<circle cx="8" cy="8" r="6" fill="none"/><path class="full" d="M8 2a6 6 0 0 0 0 12z"/>',
  usable: '<circle class="full" cx="8" cy="8" r="6"/>',
  picked: '<circle class="full" cx="8" cy="8" r="7"/><path class="over" d="M4.6 8.2l2.4 2.4 4.4-4.8"/>',
}

export function standingMark(standing: Standing): Markup {
  return svg(`standing ${standing}`, STANDING_PATHS[standing])
}

const VERDICT_PATHS: Readonly<Record<JudgedFrame['verdict'], string>> = {
  pass: '<path d="M2.5 8.5l3.7 3.7 7.3-8"/>',
  fail: '<path d="M8 2v7.5M8 13v.6"/>',
  unsure: '<path d="M5 5.4a3 3 0 1 1 4.4 2.7c-1 .5-1.4 1-1.4 2.1M8 13.2v.4"/>',
}

export function verdictMark(verdict: JudgedFrame['verdict']): Markup {
  return svg(`verdict ${verdict}`, VERDICT_PATHS[verdict])
}

function svg(kind: string, paths: string): Markup {
  return html`<svg class="mark ${kind}" viewBox="0 0 16 16" aria-hidden="true">${new Markup(paths)}</svg>`
}

/** The pages' icon: a frame with a check in it. */
export const ICON =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 16 16"><rect width="16" height="16" rx="2" fill="#0d4f2a"/><path d="M3.5 8.5l3 3 6-7" fill="none" stroke="#fff" stroke-width="2"/></svg>'
