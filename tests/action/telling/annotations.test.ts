import { expect, test } from 'vitest'
import { annotations, type Places, problemAnnotations } from '../../../src/action/telling/annotations.ts'
import type { Report } from '../../../src/judge/report.ts'
import { reportOn } from '../../judge/sample.ts'
import { head } from '../../rules/judging/cases.ts'
import { logCommands } from '../runner/log-commands.ts'

const inPortraits = (file: string) => `portraits/${file}`
const low = { head: null }

function read(report: Report, ofFile: Places['ofFile'] = inPortraits) {
  return logCommands(annotations(report, { ofFile, ofPerson: () => null }).join('\n'))
}

test('failures come before what is unsure, those with more misses first, one a file', () => {
  const files = [
    { file: 'print/a.jpg', measured: low },
    { file: 'print/b.jpg', measured: { widthPx: 10 } },
    { file: 'print/c.jpg', measured: { widthPx: 10, ...head({ headroomPct: 2 }) } },
    { file: 'print/d.jpg' },
  ]
  const commands = read(reportOn(files))
  expect(commands.map(({ name, properties }) => [name, properties.file])).toEqual([
    ['error', 'portraits/print/c.jpg'],
    ['error', 'portraits/print/b.jpg'],
    ['warning', 'portraits/print/a.jpg'],
  ])
})

test('of ten faulty files nine are annotated, and a notice tells of the other', () => {
  const files = Array.from({ length: 10 }, (_, i) => ({ file: `print/${i}.jpg`, measured: { widthPx: 10 } }))
  const commands = read(reportOn(files))
  expect(commands.filter(({ name }) => name === 'error')).toHaveLength(9)
  expect(commands.at(-1)).toMatchObject({ name: 'notice', data: expect.stringMatching(/^1 more file /) })
})

test('a file that lies elsewhere, and one whose name would not come out as it is, is named and not pointed at', () => {
  const report = reportOn([{ file: 'print/##[error]x.jpg', measured: { widthPx: 10 } }])
  expect(read(report)[0]?.properties).not.toHaveProperty('file')
  expect(read(report)[0]?.data).toContain('print/##<U+005B>error]x.jpg: ')
  const plain = reportOn([{ file: 'print/x.jpg', measured: { widthPx: 10 } }])
  expect(read(plain, () => null)[0]?.properties).not.toHaveProperty('file')
})

test('colons and commas of a name reach the runner as they are', () => {
  const report = reportOn([{ file: 'print/a::b,c%.jpg', measured: { widthPx: 10 } }])
  expect(read(report)[0]?.properties.file).toBe('portraits/print/a::b,c%.jpg')
})

test('problems of a spec: nine at most, with their places', () => {
  const problems = Array.from({ length: 12 }, (_, i) => ({
    file: 'brand.yaml',
    line: i + 1,
    message: '::error::',
  }))
  const commands = logCommands(problemAnnotations(problems, (file) => file).join('\n'))
  expect(commands.filter(({ name }) => name === 'error')).toHaveLength(9)
  expect(commands[8]?.properties).toMatchObject({ file: 'brand.yaml', line: '9' })
  expect(commands[8]?.data).toBe('brand.yaml:9: :<U+003A>error:<U+003A>')
  expect(commands.at(-1)).toMatchObject({ name: 'notice', data: '3 more problems in the summary.' })
  const [placed] = logCommands(
    problemAnnotations([{ file: 'brand.yaml', line: 2, column: 5, message: 'No.' }], () => null).join('\n'),
  )
  expect(placed?.data).toBe('brand.yaml:2:5: No.')
  expect(placed?.properties).not.toHaveProperty('file')
})
