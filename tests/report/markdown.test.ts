import { marked } from 'marked'
import { expect, test } from 'vitest'
import { summedUp } from '../../src/judge/report.ts'
import { markdown } from '../../src/report/markdown.ts'
import { reportOn, reportOnAlike, SPEC } from '../judge/sample.ts'
import { face, head, UNREAD } from '../rules/judging/cases.ts'

const REPORT = reportOn(
  [
    { file: 'print/Okafor-Ada_00124.jpg' },
    {
      file: 'print/Lindqvist-Åsa_00125.jpg',
      measured: { ...head({ headroomPct: 4.1 }), ...face({ tiltDeg: 4.1 }) },
    },
    { file: 'print/Moreau-Luc_00126.jpg', measured: UNREAD },
    { file: 'print/Sato-Rin_00127.jpg', measured: head({ confidence: 0.4, doubts: ['crown-implausible'] }) },
  ],
  SPEC,
  { left: { hidden: 0, sidecars: 1, links: 0, other: 0 } },
)

test('a page', () => {
  expect(markdown(REPORT)).toMatchInlineSnapshot(`
    "## Of 4 portraits, 2 fail and 1 is unsure.

    Brand spec: Osprey Lane Veterinary Group, version 1 (brand.yaml). 4 portraits: 1 pass, 2 fail, 1 unsure; 1 warning. Not checked: 1 document or sidecar.

    | Rule missed | Portraits |  |
    | --- | --- | --- |
    | headroom | 2 of 3 | 1 unsure. |
    | intact | 1 of 4 |  |
    | tilt | 1 of 3 | Warns only. |

    ### Need work

    | About | Rule | Finding | Fix |
    | --- | --- | --- | --- |
    | print/Moreau-Luc&#95;00126.jpg | intact | The file is truncated: the picture ends before its last row; the spec asks for a complete picture. | The copy or upload did not finish. Export or copy it again from the original. |
    | print/Lindqvist-Åsa&#95;00125.jpg | headroom | Headroom is 4.1 % of the frame height; the spec asks for 6 to 12 %. | Level the head first (see tilt) and check again, since rotating changes the crop; as it is now, go back to the uncropped frame and take 2400 x 3000 px starting 66 px above the top left corner of this file. This file lacks 66 px above the head; the backdrop could be extended there instead. |

    ### Unsure: check by eye

    | About | Rule | Why |
    | --- | --- | --- |
    | print/Sato-Rin&#95;00127.jpg | headroom | Headroom could not be measured with confidence: the crown found does not fit the proportions of a head. The spec asks for 6 to 12 %; check by eye. |

    ### Warnings

    | About | Rule | Finding | Fix |
    | --- | --- | --- | --- |
    | print/Lindqvist-Åsa&#95;00125.jpg | tilt | The eye line is tilted 4.1° clockwise; the spec asks for at most 2° either way. | Rotate the picture counterclockwise by at least 2.1°, then crop again. |
    "
  `)
})

test('nothing but passes', () => {
  expect(markdown(reportOn([{ file: 'a.jpg' }]))).toMatchInlineSnapshot(`
    "## The portrait passes.

    Brand spec: Osprey Lane Veterinary Group, version 1 (brand.yaml). 1 portrait: 1 pass, 0 fail, 0 unsure; 0 warnings.
    "
  `)
})

// GitHub Flavored Markdown as another implementation reads it: npm marked.
test('strangers add no markup', () => {
  const hostile = '| x |\n# <img src=x> `a` [b](http://e.example) @octocat **c** \u202e$d$ 1. - www.e.example'
  const report = reportOn(
    [
      {
        file: `${hostile}.jpg`,
        measured: { color: { space: 'rgb', profile: 'other', profileName: hostile } },
      },
    ],
    { ...SPEC, brand: hostile, file: hostile },
  )
  const html = marked.parse(markdown(report), { async: false })
  const tags = new Set([...html.matchAll(/<\/?([a-z0-9]+)[^>]*>/g)].map(([, tag]) => tag))
  expect(tags).toEqual(new Set(['h2', 'h3', 'p', 'table', 'thead', 'tbody', 'tr', 'th', 'td']))
  expect(html.match(/<td>/g)).toHaveLength(4)
  expect(html).not.toMatch(/@octocat|\u202e/)
})

test('a page too large for a summary says what it leaves out, and keeps the totals', () => {
  const failing = Array.from({ length: 300 }, (_, i) => ({
    file: `${i}.jpg`,
    measured: head({ headroomPct: 2 }),
  }))
  const text = markdown(reportOn(failing), { all: true, mostBytes: 20_000 })
  expect(Buffer.byteLength(text)).toBeLessThan(21_000)
  const rows = text.match(/^\| \d+\.jpg /gm)?.length ?? 0
  expect(rows).toBeGreaterThan(50)
  expect(text).toContain(`\n\n${300 - rows} more rows, left out`)
  expect(text).toContain('300 portraits: 0 pass, 300 fail')
})

// A step summary on GitHub may hold 1 MiB (GitHub Docs, "Workflow commands", step isolation and limits).
test('ten thousand failing portraits fit into a summary', () => {
  const paths = Array.from({ length: 10_000 }, (_, i) => `${i}.jpg`)
  const report = reportOnAlike(paths, head({ headroomPct: 2 }))
  expect(report.totals.fail).toBe(10_000)
  expect(Buffer.byteLength(markdown(report, { all: true }))).toBeLessThan(1024 * 1024)
})

test('a file on which nothing could be judged is among those to look at', () => {
  const report = reportOn([{ file: 'a.jpg' }])
  const files = report.files.map((file) => ({ ...file, verdict: 'unsure' as const, outcomes: [] }))
  expect(markdown({ ...report, ...summedUp(files, report.delivery), files })).toContain(
    '| a.jpg |  | No rule could be judged on this file. |',
  )
})
