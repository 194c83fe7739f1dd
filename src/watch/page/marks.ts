import type { Markup } from '../../report/html/markup.ts'
import { mark } from '../../server/page/marks.ts'
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
  return mark(`standing ${standing}`, STANDING_PATHS[standing])
}
