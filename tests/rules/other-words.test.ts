import { expect, test } from 'vitest'
import { specSchema } from '../../src/brand-spec/schema.ts'
import { run } from '../../src/commands/run.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'
import { meantBy, namesFor, OTHER_WORDS } from '../../src/rules/other-words.ts'
import { recordingHost } from '../commands/host.ts'

const IDS = ALL_RULES.map(({ id }) => id)

/** All keys and values that a schema names. */
function namesIn(schema: unknown): string[] {
  if (typeof schema !== 'object' || schema === null) return []
  const { properties = {}, const: only } = schema as { properties?: object; const?: unknown }
  return [...Object.keys(properties), String(only), ...Object.values(schema).flatMap(namesIn)]
}

test('every word means names that specs have, and is no rule itself', () => {
  const names = namesIn(specSchema(ALL_RULES))
  for (const word of OTHER_WORDS) {
    expect(IDS, word).not.toContain(word)
    const meant = namesFor(word, names)
    expect(meant.length, word).toBeGreaterThan(0)
    expect(namesFor(word, [...meant, 'another']), word).toEqual(meant)
  }
  expect(namesFor('constructor', names)).toEqual([])
})

// Other names are common practice, no source; forms of one name follow from the definition of meantBy.
const PROFILES = ['sRGB', 'Adobe RGB (1998)', 'Display P3', 'ProPhoto RGB', 'gray']
const ITEMS = [
  'location',
  'coordinates',
  'place-names',
  'camera-serial',
  'lens-serial',
  'owner',
  'capture-time',
]
test.each([
  ['AdobeRGB', PROFILES, ['Adobe RGB (1998)']],
  ['adobe rgb 1998', PROFILES, ['Adobe RGB (1998)']],
  ['S-RGB', PROFILES, ['sRGB']],
  ['P3', PROFILES, ['Display P3']],
  ['grey', PROFILES, ['gray']],
  ['grayscale', PROFILES, ['gray']],
  ['CMYK', PROFILES, []],
  ['gps', ITEMS, ['coordinates', 'location']],
  ['Camera_Serial', ITEMS, ['camera-serial']],
  ['serial', ITEMS, ['camera-serial', 'lens-serial']],
  ['date', ITEMS, ['capture-time']],
  ['jpg', ['jpeg', 'png', 'tiff'], ['jpeg']],
  ['camera-left', ['left', 'right', 'none'], ['left']],
  ['background-luminance', ['background-lightness', 'background-tint'], ['background-lightness']],
  // Too short a part, and a part of too many names.
  ['l', ITEMS, []],
  ['one', ['one-first', 'one-second', 'one-third', 'one-fourth'], []],
  ['', ITEMS, []],
])('%s of %j means %j', (word, names, meant) => {
  expect(meantBy(word, names)).toEqual(meant)
})

test.each([
  ['dpi', 'resolution:'],
  ['GPS', 'metadata-forbidden:'],
  ['icc', 'color-space:'],
  ['monochrome', 'allow-monochrome'],
  ['blur', 'eye-focus:'],
  ['sharpness', 'eye-focus:'],
  ['crop', 'headroom:'],
  ['glasses', 'lens-glare:'],
  ['background', 'background-tint:'],
])('explain %s tells of %s', async (word, heading) => {
  const { host, stdout } = recordingHost(process.cwd())
  expect(await run(['explain', word], host)).toBe(0)
  expect(stdout()).toContain(heading)
})

test('a misspelled word is asked back', async () => {
  const { host, stderr } = recordingHost(process.cwd())
  expect(await run(['explain', 'sharpnes'], host)).toBe(2)
  expect(stderr()).toContain('did you mean sharpness?')
})
