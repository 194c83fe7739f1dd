import { readFile } from 'node:fs/promises'
import { beforeAll, describe, expect, test } from 'vitest'
import { evaluateGroups } from '../../accuracy/evaluate-groups.ts'
import { type MeasureTable, tables } from '../../accuracy/judged.ts'

const PAGE = 'docs/validation.md'

/** Rows of the page's table "| measure | groups | in | why |": what is told of which groups. */
async function told(): Promise<Set<string>> {
  const rows = (await readFile(PAGE, 'utf8')).split('\n').filter((line) => line.startsWith('|'))
  return new Set(
    rows.flatMap((row) => {
      const [, measure = '', groups = '', kinds = '', why = ''] = row.split('|').map((cell) => cell.trim())
      if (why === '') return []
      return groups
        .split(', ')
        .flatMap((group) => kinds.split(', ').map((kind) => `${measure}: ${group}: ${kind}`))
    }),
  )
}

describe('drawn sitters by skin tone, hair, headwear and beard', () => {
  let measures: readonly MeasureTable[] = []
  beforeAll(async () => {
    measures = tables(await evaluateGroups())
  })

  test('no group is over 1.5 times the mean without a sentence on the page that says so and why', async () => {
    const page = await told()
    const over = measures.flatMap(({ measure, rows }) =>
      rows.flatMap((row) => row.over.map((kind) => `${measure}: ${row.group}: ${kind}`)),
    )
    expect(over.filter((one) => !page.has(one))).toEqual([])
  })

  test('what passes and should fail, or the other way round, is under one in a hundred of each measure', () => {
    for (const { measure, all } of measures) {
      expect(all.n, measure).toBeGreaterThanOrEqual(140)
      expect(all.falsePasses / all.n, measure).toBeLessThan(0.01)
      expect(all.falseFails / all.n, measure).toBeLessThan(0.02)
    }
  })
})
