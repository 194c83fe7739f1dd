import { describe, expect, test } from 'vitest'
import { galleryText, readGallery } from '../../../src/gallery/gallery-file.ts'
import { MEASURER_VERSION } from '../../../src/measure/schema/measurements.ts'
import type { Delivery, GalleryPortrait } from '../../../src/rules/contract/delivery-rule.ts'
import { setMatch } from '../../../src/rules/delivery/set-match.ts'
import { traitsOf } from '../../../src/rules/delivery/set-traits.ts'
import { gaussian } from '../../random.ts'
import { GOOD } from '../judging/cases.ts'
import { type Changes, deliveryOf, portrait } from './deliveries.ts'

/** Portraits made in one sitting: each number varies a little. */
function sitting(n: number, seed: number) {
  const normal = gaussian(seed)
  return Array.from({ length: n }, (_, i) =>
    portrait(`P${i}`, 'print', {
      head: { headroomPct: 9 + 0.5 * normal(), eyeLinePct: 37 + 0.5 * normal() },
      background: { lightnessL: 96 + 0.3 * normal() },
    }),
  )
}
const judge = (delivery: Delivery, options = {}) => setMatch.judge(delivery, options)

describe('the set against itself', () => {
  test('a sitting holds together', () => {
    const [finding, ...more] = judge(deliveryOf(sitting(20, 1)))
    expect(finding).toMatchObject({ verdict: 'pass', files: [] })
    expect(more).toEqual([])
  })

  test('who stands out, how far, in which direction, and which file is fixed first', () => {
    const files = [
      ...sitting(20, 2),
      portrait('Low', 'print', { head: { headroomPct: 14, eyeLinePct: 42 } }),
      portrait('Dark', 'print', { background: { lightnessL: 88 } }),
    ]
    const found = judge(deliveryOf(files))
    expect(found.map(({ verdict }) => verdict)).toEqual(['fail', 'fail'])
    const [first, second] = found
    expect(first?.files).toEqual(['print/Dark.jpg'])
    expect(first?.reason).toMatch(
      /^"print\/Dark.jpg" stands out from the set: the backdrop is [78](\.\d)? L\* darker \(88 L\* against 9[56](\.\d)? L\*\)\.$/,
    )
    // IEC 61966-2-1 and CIE 15: from L* 88 to 96 the luminance rises by 0.33 stop, rounded up.
    expect(first?.fix).toBe('Start with this file. Lighten the backdrop by about 0.4 stop to match the set.')
    expect(first?.expected).toBe('as in the set')
    expect(second?.files).toEqual(['print/Low.jpg'])
    expect(second?.reason).toMatch(/the eyes are lower \(42 % from the top against 3[67](\.\d)? %\)/)
    expect(second?.fix).toMatch(
      /^Go back to the uncropped frame and take 2400 x 3000 px starting 1\d\d px below the top/,
    )
  })

  test('seven are too few: skipped with a sentence; eight are enough', () => {
    const [few] = judge(deliveryOf(sitting(7, 3)))
    expect(few).toMatchObject({
      verdict: 'skip',
      reason: expect.stringContaining('judged by the spec alone'),
    })
    expect(judge(deliveryOf(sitting(8, 3)))[0]?.verdict).toBe('pass')
  })

  test('what was not measured is unsure, never a pass', () => {
    const files = [...sitting(12, 4), portrait('Unknown', 'print', { head: { confidence: 0.2 } })]
    const found = judge(deliveryOf(files))
    expect(found.map(({ verdict, files: about }) => [verdict, about])).toEqual([
      ['unsure', ['print/Unknown.jpg']],
    ])
  })

  test('a wider limit lets more pass', () => {
    const files = [...sitting(20, 2), portrait('Low', 'print', { head: { headroomPct: 5, eyeLinePct: 33 } })]
    expect(judge(deliveryOf(files))[0]?.verdict).toBe('fail')
    expect(judge(deliveryOf(files), { 'max-score': 40 })[0]?.verdict).toBe('pass')
  })
})

describe('the texture of the skin', () => {
  const smooth = (skinTexturePct: number) => ({ finish: { skinTexturePct } })
  const others = Array.from({ length: 12 }, (_, i) => portrait(`P${i}`, 'print'))

  test('less of it than in the set stands out, in words on the file', () => {
    const [found, ...more] = judge(deliveryOf([...others, portrait('Smooth', 'print', smooth(0.1))]))
    expect(more).toEqual([])
    expect(found).toMatchObject({ files: ['print/Smooth.jpg'], traits: ['skin-texture low'] })
    // With eyes of 1 px, what is there has lost a seventh of its contrast.
    expect(found?.reason).toContain(
      'the file has less fine texture on the skin, its sharpness allowed for (0.12 % against 0.58 %)',
    )
    expect(found?.fix).toBe('Smooth the skin less in the retouch, to match the set.')
  })

  test('a soft picture does not, nor one in which the sharpness of the eyes is not known', () => {
    const { focus } = GOOD.finish ?? {}
    if (!focus) throw new Error('no focus')
    const soft = portrait('Soft', 'print', { finish: { skinTexturePct: 0.1, focus: { ...focus, eyePx: 4 } } })
    const unread = portrait('Unread', 'print', { finish: { skinTexturePct: 0.1, focus: null } })
    expect(judge(deliveryOf([...others, soft, unread])).map(({ verdict }) => verdict)).toEqual(['pass'])
  })

  test('more of it does not: that is the sitter', () => {
    expect(judge(deliveryOf([...others, portrait('Rough', 'print', smooth(4))]))[0]?.verdict).toBe('pass')
  })

  test('a portrait in which it can not be read is compared by the rest', () => {
    const texture = { confidence: 0.4, doubts: ['skin-grainy' as const] }
    const grainy = portrait('Grainy', 'print', { finish: { skinTexturePct: 0.01, texture } })
    expect(judge(deliveryOf([...others, grainy]))[0]?.verdict).toBe('pass')
  })
})

/** Twenty portraits that are alike to the last digit, and one that is not; what is said of that one. */
function told(changes: Changes) {
  const alike = Array.from({ length: 20 }, (_, i) => portrait(`P${i}`, 'print'))
  const found = judge(deliveryOf([...alike, portrait('Other', 'print', changes)]))
  expect(found).toHaveLength(1)
  return found[0]
}
const lab = (a: number, b: number) => ({ background: { lab: { L: 96, a, b } } })
const skin = (L: number, a: number, b: number) => ({
  finish: {
    skinTint: { lab: { L, a, b }, hueDeg: 45, hueErrorDeg: 4, confidence: 0.9, doubts: [] },
  },
})
const MISSING = 'This file lacks'

// The good portrait: eyes 37 % from the top and 0.2 % right of center, a head of 46 % with its chin at 55 %, a backdrop of L* 96 and
// b* 0.4, the left cheek 0.6 stop brighter, and skin of L* 60, a* 13, b* 14, in 2400 x 3000 px.
test.each([
  {
    what: 'eyes too low: the crop moves down by 5 % of 3000 px',
    changes: { head: { eyeLinePct: 42 } },
    says: 'the eyes are lower (42 % from the top against 37 %)',
    short: 'eyes at 42 %, not 37 %',
    fix: `Go back to the uncropped frame and take 2400 x 3000 px starting 150 px below the top left corner of this file. ${MISSING} 150 px at the bottom.`,
  },
  {
    what: 'a head too large, and the face with it: a wider crop about the eyes',
    changes: { head: { headHeightPct: 57.5, chin: { x: 0.5, y: 0.595 } } },
    says: 'the head is larger (57.5 % of the frame height against 46 %)',
    short: 'head 57.5 %, not 46 %',
    // 57.5 / 46 is 5 / 4: 3000 x 3750 px. The eyes stay at 37 %: 1110 px of 3000, 1387.5 px of 3750.
    fix: `Go back to the uncropped frame and take 3000 x 3750 px starting 277 px above and 301 px left of the top left corner of this file, then scale to 2400 x 3000 px. ${MISSING} 277 px above the head, 473 px at the bottom, 301 px on the left and 299 px on the right`,
  },
  {
    what: 'a head too small, and the face with it: a tighter crop',
    changes: { head: { headHeightPct: 36.8, chin: { x: 0.5, y: 0.514 } } },
    says: 'the head is smaller (36.8 % of the frame height against 46 %)',
    short: 'head 36.8 %, not 46 %',
    fix: 'Go back to the full-size original and take 1920 x 2400 px starting 222 px below and 241 px right of the top left corner of this file, and export that at 2400 x 3000 px.',
  },
  {
    what: 'a face left of center',
    changes: { head: { offCenterPct: -5.1 } },
    says: 'the face is 5.1 % left of center (in the set 0.2 % right of center)',
    short: 'face 5.1 % left of center',
    // 5.3 % of 2400 px is 127.2 px.
    fix: 'take 2400 x 3000 px starting 127 px left of the top left corner of this file.',
  },
  {
    what: 'a backdrop too light',
    changes: { background: { lightnessL: 99 } },
    says: 'the backdrop is 3 L* lighter (99 L* against 96 L*)',
    short: 'backdrop 99 L*, not 96 L*',
    fix: 'Darken the backdrop by about 0.2 stop to match the set.',
  },
  {
    what: 'an uneven backdrop',
    changes: { background: { unevennessL: 8 } },
    says: 'the backdrop is less evenly lit (8 L* from dark to light against 1.5 L*)',
    short: 'backdrop uneven by 8 L*, not 1.5 L*',
    fix: 'Even the backdrop out in retouching, or light it evenly.',
  },
  {
    what: 'a yellow backdrop',
    changes: lab(0, 28.1),
    says: 'the backdrop is far yellower (b* +27.7)',
    short: 'backdrop far yellower (b* +27.7)',
    fix: 'Make the backdrop bluer by 27.7 b*, by white balance or in the backdrop alone, to match the set.',
  },
  {
    what: 'a backdrop off along both axes: one color, one sentence, one fix',
    changes: lab(-2.5, 3.2),
    says: 'the backdrop is yellower and greener (b* +2.8, a* -2.5)',
    short: 'backdrop yellower and greener (b* +2.8, a* -2.5)',
    fix: 'Make the backdrop bluer by 2.8 b* and redder by 2.5 a*, by white balance or in the backdrop alone, to match the set.',
  },
  {
    what: 'light from the other side',
    changes: { finish: { keySide: 'right', keyRatioStops: 0.5 } },
    says: 'the left cheek is 0.5 stop darker than the right (in the set 0.6 stop brighter than the right)',
    short: 'left cheek 0.5 stop darker than the right',
    fix: 'Choose a frame lit like the others, or shoot again.',
  },
  {
    what: 'harder light',
    changes: { finish: { keyRatioStops: 1.8 } },
    says: 'the left cheek is 1.8 stops brighter than the right (in the set 0.6 stop brighter than the right)',
    short: 'left cheek 1.8 stops brighter than the right',
    fix: 'darken the left cheek by about 1.2 stops against the right.',
  },
  {
    what: 'skin retouched toward red',
    changes: skin(60, 23, 12),
    says: 'skin is balanced redder (a* +10), its lightness allowed for',
    short: 'skin balanced redder (a* +10)',
    fix: 'Balance skin greener by 10 a*, to match the set: check the white balance, and masks if the backdrop is right.',
  },
  {
    what: 'skin under a cool balance',
    changes: skin(60, 5, -1),
    says: 'skin is balanced greener and bluer (a* -8, b* -15), its lightness allowed for',
    short: 'skin balanced greener and bluer (a* -8, b* -15)',
    fix: 'Balance skin redder by 8 a* and yellower by 15 b*, to match the set',
  },
  {
    what: 'a picture without color',
    changes: { rest: { peakChromaC: 0.3 }, background: { lab: { L: 96, a: -6, b: -6 } } },
    says: 'it is in black and white, and the set is in color',
    short: 'no color',
    fix: 'Deliver the color version.',
  },
] satisfies { what: string; changes: Changes; says: string; short: string; fix: string }[])(
  '$what',
  (row) => {
    const finding = told(row.changes)
    expect(finding?.reason).toBe(`"print/Other.jpg" stands out from the set: ${row.says}.`)
    expect(finding?.measured).toBe(row.short)
    expect(finding?.fix).toContain(row.fix)
  },
)

describe('what is the sitter and not the file', () => {
  test.each<[what: string, changes: Changes]>([
    ['big hair takes headroom', { head: { headroomPct: 4 } }],
    // The crown 6 % higher; eyes and chin where the others have theirs.
    ['big hair makes the head high', { head: { headroomPct: 3, headHeightPct: 52 } }],
    [
      'a shaved head and a low chin',
      { head: { headroomPct: 13, headHeightPct: 42.5, chin: { x: 0.5, y: 0.555 } } },
    ],
    ['a backdrop more even than the others', { background: { unevennessL: 0 } }],
    // Skin of three of 51 portraits in one light (Face Research Lab London Set, doi:10.6084/m9.figshare.5047666.v5).
    ['skin darker than that of all others', skin(23.9, 6.5, 6.6)],
    ['skin yellower than that of the others', skin(40.4, 10.4, 16.6)],
    ['skin paler than that of the others', skin(71.5, 9.3, 9.9)],
    ['skin paler still, where the curve is not known', skin(88, 4, 5)],
  ])('%s', (_, changes) => {
    const alike = Array.from({ length: 20 }, (_, i) =>
      portrait(`P${i}`, 'print', { background: { unevennessL: 9 } }),
    )
    const other = portrait('Other', 'print', {
      ...changes,
      background: { unevennessL: 9, ...changes.background },
    })
    expect(judge(deliveryOf([...alike, other]))).toMatchObject([{ verdict: 'pass' }])
  })
})

describe('beside what the rules on the file say', () => {
  const low: Changes = { head: { eyeLinePct: 42 }, background: { lightnessL: 90 } }
  const box = { leftPx: 10, topPx: 20, widthPx: 2000, heightPx: 2500 }

  test('the one crop of the file goes; what else is off is told', () => {
    const finding = told({ ...low, judged: { fileCrop: { rule: 'headroom', crop: box } } })
    expect(finding?.fix).toBe(
      'Crop it as headroom says, then check again. Lighten the backdrop by about 0.3 stop to match the set.',
    )
    expect(finding).not.toHaveProperty('crop')
  })

  test('where it has to be leveled first, or nothing meets all, too', () => {
    const finding = told({ ...low, judged: { fileCrop: { rule: 'tilt', crop: null } } })
    expect(finding?.fix).toContain('Crop it as tilt says')
  })

  test('one that only scales the whole picture leaves the crop to the set, at that size', () => {
    const crop = {
      leftPx: 0,
      topPx: 0,
      widthPx: 2400,
      heightPx: 3000,
      scaleTo: { widthPx: 1200, heightPx: 1500 },
    }
    const finding = told({ ...low, judged: { fileCrop: { rule: 'pixel-size', crop } } })
    expect(finding?.crop).toEqual({
      ...{ leftPx: 0, topPx: 150, widthPx: 2400, heightPx: 3000 },
      scaleTo: { widthPx: 1200, heightPx: 1500 },
      missing: { abovePx: 0, belowPx: 150, leftPx: 0, rightPx: 0 },
    })
  })

  test.each<[what: string, changes: Changes]>([
    [
      'no face',
      { face: { count: 0, confidence: 0 }, head: { confidence: 0 }, judged: { settled: ['no-face'] } },
    ],
    ['a cut head', { head: { confidence: 0.4 }, judged: { settled: ['head-cut'] } }],
    ['no color', { rest: { peakChromaC: 0.3 }, judged: { settled: ['no-color'] } }],
  ])('%s is not told again', (_, changes) => {
    const alike = Array.from({ length: 20 }, (_, i) => portrait(`P${i}`, 'print'))
    expect(judge(deliveryOf([...alike, portrait('Other', 'print', changes)]))).toMatchObject([
      { verdict: 'pass' },
    ])
  })

  test('a set in black and white has nothing against one in color', () => {
    const gray = (i: number) => portrait(`P${i}`, 'print', { rest: { peakChromaC: 0.3 } })
    const files = [...Array.from({ length: 12 }, (_, i) => gray(i)), portrait('Color', 'print')]
    expect(judge(deliveryOf(files))).toMatchObject([{ verdict: 'pass' }])
  })
})

describe('the set against a gallery', () => {
  const gallery: GalleryPortrait[] = sitting(15, 6).map(({ measured }) => ({
    deliverable: 'print',
    traits: traitsOf(measured),
  }))

  test('three new ones that agree with each other but not with the gallery', () => {
    const files = ['A', 'B', 'C'].map((who) => portrait(who, 'print', { background: { lightnessL: 90 } }))
    const found = judge({ ...deliveryOf(files), gallery })
    expect(found.map(({ verdict }) => verdict)).toEqual(['fail', 'fail', 'fail'])
    expect(found[0]?.reason).toContain('stands out from the gallery')
  })

  test('saved and read again it judges the same, and holds numbers only', () => {
    const text = galleryText(gallery)
    expect(text).not.toMatch(/P\d|jpg/)
    const read = readGallery(text)
    if ('problem' in read) throw new Error(read.problem)
    const files = sitting(3, 7)
    expect(judge({ ...deliveryOf(files), gallery: read.portraits }).map(({ verdict }) => verdict)).toEqual(
      judge({ ...deliveryOf(files), gallery }).map(({ verdict }) => verdict),
    )
  })

  test.each([
    ['no JSON', '{', 'This is not JSON.'],
    ['another file', '{"kind": "roster"}', 'This is not a gallery file.'],
    [
      'another version',
      galleryText(gallery).replace(`"measurer": ${MEASURER_VERSION}`, '"measurer": 99999'),
      "the numbers can't be compared",
    ],
  ])('%s is refused with a sentence', (_, text, says) => {
    expect(readGallery(text)).toMatchObject({ problem: expect.stringContaining(says) })
  })
})
