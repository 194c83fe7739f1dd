import { error as coreError } from '@actions/core'
import { afterEach, expect, test, vi } from 'vitest'
import { workflowCommand } from '../../../src/action/telling/workflow-command.ts'

afterEach(() => {
  vi.restoreAllMocks()
})

/** What @actions/core, the toolkit's own library, prints for the same annotation. */
function printedByCore(message: string, file: string, title: string): string {
  const printed: string[] = []
  const write = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    printed.push(String(text))
    return true
  })
  coreError(message, { title, file, startLine: 3, startColumn: 7 })
  write.mockRestore()
  return printed.join('')
}

const PIECES = [
  '%',
  '\r',
  '\n',
  ':',
  '::',
  ',',
  '=',
  ';',
  '##[',
  ']',
  '%25',
  '%0A',
  'é',
  '👩🏽‍🔧',
  'a',
  ' ',
  '\u202e',
  '\0',
]

/** A sequence that is the same in every run: Lehmer, Park and Miller, CACM 31(10), 1988. */
function randomTexts(count: number): string[] {
  let seed = 20_261_125
  const next = (below: number) => {
    seed = (seed * 48_271) % 2_147_483_647
    return seed % below
  }
  return Array.from({ length: count }, () =>
    Array.from({ length: next(12) + 1 }, () => PIECES[next(PIECES.length)]).join(''),
  )
}

test('escapes 1,000 random strings as @actions/core does', () => {
  const texts = randomTexts(1000)
  expect(new Set(texts).size).toBeGreaterThan(900)
  for (const [index, text] of texts.entries()) {
    const file = texts[(index + 1) % texts.length] ?? ''
    const place = { title: text, file, line: 3, col: 7 }
    expect(`${workflowCommand('error', place, text)}\n`).toBe(printedByCore(text, file, text))
  }
})

test('what is empty is left out', () => {
  expect(workflowCommand('notice', {}, 'a')).toBe('::notice::a')
  expect(workflowCommand('notice', { title: '', line: 0 }, 'a')).toBe('::notice::a')
})
