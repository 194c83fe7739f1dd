import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { UsageError } from '../../src/checking/usage-error.ts'
import { EXTENSIONS, FORMATS, type Format, refusePages } from '../../src/commands/formats.ts'
import { formatted } from '../../src/commands/formatted.ts'
import { writeSinks } from '../../src/commands/outputs.ts'
import { reportOn } from '../judge/sample.ts'
import { recordingHost } from './host.ts'

const options = { all: false, pictures: new Map(), at: new Date('2027-02-03T10:00:00Z'), name: 'report.html' }
const layout = { columns: 80, color: false }
const many = (n: number) => reportOn(Array.from({ length: n }, (_, i) => ({ file: `${i}.jpg` })))

// How each format begins, by its own specification.
const BEGINNINGS: Readonly<Record<Format, string>> = {
  table: 'PASS    2 portraits:',
  json: '{',
  markdown: '## ',
  html: '<!doctype html>',
  junit: '<?xml version="1.0"',
  csv: '\ufeff"person"',
  renames: '#!/bin/sh',
}

test.each(FORMATS)('%s', (format) => {
  const rendered = formatted(many(2), format, layout, options)
  const text = typeof rendered === 'string' ? rendered : rendered.text
  expect(text.slice(0, 20)).toContain(BEGINNINGS[format])
  expect(Object.values(EXTENSIONS)).toContain(format)
})

describe('an HTML report of several pages', () => {
  let folder = ''
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'portrait-gate-formats-'))
  })
  afterAll(() => rm(folder, { recursive: true, force: true }))

  test('is written page by page beside its index', async () => {
    const { host, stdout } = recordingHost(folder)
    const report = many(201)
    await writeSinks<Format>(
      [
        { format: 'html', file: 'out.htm' },
        { format: 'csv', file: null },
      ],
      (format, size) => formatted(report, format, size, { ...options, name: 'out.htm' }),
      host,
    )
    expect((await readdir(folder)).sort()).toEqual(['out-1.htm', 'out-2.htm', 'out.htm'])
    expect(await readFile(join(folder, 'out.htm'), 'utf8')).toContain('href="out-2.htm#portrait-201"')
    expect(await readFile(join(folder, 'out-2.htm'), 'utf8')).toContain('href="out.htm"')
    expect(stdout()).toContain('"200.jpg"')
  })

  test('can not be printed', () => {
    const refuse = (format: Format, file: string | null) => () => refusePages([{ format, file }], 201)
    expect(refuse('html', null)).toThrow(UsageError)
    expect(refuse('html', null)).toThrow(/201 portraits has several pages.*--output FILE/)
    expect(refuse('html', 'out.html')).not.toThrow()
    expect(refuse('json', null)).not.toThrow()
  })
})
