import { marked } from 'marked'
import { expect, test } from 'vitest'
import { summaryPage } from '../../../src/action/telling/summary.ts'

test('notes come first and hold no markup', () => {
  const page = summaryPage(['The change touches <img src=x>, @team.'], '## All 2 portraits pass.\n')
  expect(page).toMatch(/^> The change touches .*\n\n## All 2 portraits pass\.\n$/)
  expect(marked.parse(page, { async: false })).not.toContain('<img')
})

test('too long a page is cut after a whole line and says so', () => {
  const report = Array.from({ length: 1000 }, (_, i) => `| Åsa ${i} |`).join('\n')
  const page = summaryPage([], report, 2000)
  expect(Buffer.byteLength(page)).toBeLessThanOrEqual(2000)
  const [rows = '', rest] = page.split('\n\n')
  expect(rest).toMatch(/^The rest is left out/)
  for (const [i, row] of rows.split('\n').entries()) expect(row).toBe(`| Åsa ${i} |`)
})

test('without a limit given it stays under 900 KiB', () => {
  expect(Buffer.byteLength(summaryPage([], 'é\n'.repeat(1_000_000)))).toBeLessThanOrEqual(900 * 1024)
})
