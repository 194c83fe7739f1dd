import { expect, test } from 'vitest'
import { reportOn, SPEC } from '../../judge/sample.ts'
import { head } from '../../rules/judging/cases.ts'
import { pageOn } from './sample.ts'

const facing = { turn: { max: 15 }, nod: { target: 5, tolerance: 12.5 } }
const REPORT = reportOn(
  [
    { file: 'a.jpg', measured: head({ headroomPct: 2 }) },
    { file: 'b.jpg', measured: head({ headroomPct: 7, confidence: 0.4, doubts: ['crown-implausible'] }) },
    { file: 'c.jpg' },
    { file: 'd.jpg' },
  ],
  { ...SPEC, settings: { ...SPEC.settings, facing } },
)

test('what is asked stands in full above the points, in lines that the plot has room for', async () => {
  const page = await pageOn(REPORT)
  const [, plot = ''] = /<figcaption>facing<\/figcaption><svg(.*?)<\/svg>/s.exec(page) ?? []
  const lines = [...plot.matchAll(/<text x="12" y="(\d+)">([^<]*)/g)]
  const asked = REPORT.files[0]?.outcomes.find(({ rule }) => rule === 'facing')?.expected
  expect(lines.map(([, , line]) => line).join(' ')).toBe(`print: asked for ${asked}`)
  expect(lines.length).toBeGreaterThan(1)
  for (const [, , line = ''] of lines) expect(line.length).toBeLessThanOrEqual(48)
  const [, top = '0'] = /class="asked"[^>]* y="(\d+)"/.exec(plot) ?? []
  expect(Number(lines.at(-1)?.[1])).toBeLessThan(Number(top))
})

test('at the top, what is unsure has another color than what fails', async () => {
  const page = await pageOn(REPORT)
  const [bar = ''] = /<b>headroom<\/b>.*?<\/svg>/s.exec(page) ?? []
  expect(bar).toContain('2 of 4')
  expect(bar).toContain('<rect class="unsure" width="50" height="6"/><rect width="25" height="6"/>')
})
