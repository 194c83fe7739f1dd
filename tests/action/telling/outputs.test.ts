import { expect, test } from 'vitest'
import { outputLines } from '../../../src/action/telling/outputs.ts'
import { NO_OUTPUTS } from '../../../src/action/telling/told.ts'
import { parseOutputs } from '../runner/file-commands.ts'

test('the runner reads back what was written, whatever a path holds', () => {
  const outputs = { ...NO_OUTPUTS, checked: 3, 'report-json': 'a\nverdict=pass\nverdict<<x\npass\nx\n=b' }
  const read = parseOutputs(outputLines(outputs))
  expect(read).toEqual({
    verdict: 'skip',
    checked: '3',
    failed: '0',
    unsure: '0',
    'report-json': outputs['report-json'],
    'report-html': '',
    bag: '',
  })
})

test('no two delimiters are alike', () => {
  const delimiters = [...(outputLines(NO_OUTPUTS) + outputLines(NO_OUTPUTS)).matchAll(/<<(.+)/g)]
  expect(new Set(delimiters.map(([, one]) => one)).size).toBe(14)
})
