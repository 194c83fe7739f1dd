import { expect, test } from 'vitest'
import { loadSpec } from '../../../src/brand-spec/load.ts'
import { planFiles } from '../../../src/prepare/planning/plan.ts'
import { ALL_RULES } from '../../../src/rules/delivery-index.ts'
import { GOOD } from '../../rules/judging/cases.ts'

function planned(rules: string) {
  const loaded = loadSpec(
    `brand: B\nversion: 1\nnaming: { pattern: "{staff-id}.jpg" }\nmasters: { naming: "{staff-id}.tif" }\n${rules}`,
    'brand.yaml',
    ALL_RULES,
  )
  if ('problems' in loaded) throw new Error(JSON.stringify(loaded.problems))
  const file = '00418.tif'
  const master = { found: { path: `/masters/${file}`, file }, measured: { ...GOOD, file } }
  return planFiles([master], { spec: loaded.spec, roster: null, medians: () => ({}) })
}

test.each([
  ['', '4:4:4'],
  ['compression: { subsampling: "4:4:4" }', '4:4:4'],
  ['compression: { subsampling: "4:2:0" }', '4:2:0'],
  ['compression: { subsampling: ["4:2:2", "4:2:0"] }', '4:2:0'],
  ['compression: { subsampling: ["4:2:0", "4:4:4"] }', '4:4:4'],
])('subsampling as ordered, and of several the one that keeps most: %j', (rules, subsampling) => {
  expect(planned(rules).files.map(({ order }) => order.subsampling)).toEqual([subsampling])
})

test('what the picture library does not write is refused before anything is made', () => {
  const { files, unmade } = planned('compression: { subsampling: ["4:2:2", "4:1:1"] }')
  expect(files).toEqual([])
  expect(unmade).toMatchObject([
    {
      kind: 'refused',
      reason:
        'The spec asks for JPEGs with subsampling 4:2:2 or 4:1:1, which prepare does not write. Allow 4:4:4 or 4:2:0 in "compression", or export these by hand.',
    },
  ])
  // A gray JPEG has no chroma.
  expect(planned('compression: { subsampling: "4:2:2" }\ncolor-space: gray').files).toHaveLength(1)
})

test.each([
  [
    'headroom: { min: 30, max: 35 }',
    'above the head',
    ' Use the uncropped frame, or extend the backdrop there.',
  ],
  ['head-height: { max: 20 }\nheadroom: { max: 20 }', 'at the bottom', ' Use the uncropped frame.'],
])(
  'what a master lacks can be painted where the backdrop ends alone, never below the sitter: %j',
  (rules, where, then) => {
    const { unmade } = planned(rules)
    expect(unmade[0]).toMatchObject({
      reason: expect.stringMatching(new RegExp(`^The master lacks .* px ${where} for [a-z -]+\\.${then}$`)),
    })
  },
)
