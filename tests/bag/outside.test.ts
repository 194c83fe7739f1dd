import { execFileSync } from 'node:child_process'
import { appendFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { folderSink } from '../../src/bag/folder-sink.ts'
import { validateBag } from '../../src/bag/validate.ts'
import { writeBag } from '../../src/bag/write-bag.ts'
import { debianTool } from '../outside/debian.ts'
import { INVALID, unpackedSuite } from './suite.ts'

/*
 * Bags between this program and another reading of RFC 8493 (tests/outside/bag.py: Python, its standard library alone). That one counts as
 * far as it judges the bags of the Library of Congress as they are named.
 */
const python = debianTool('python3', 'python3')
const { signal } = new AbortController()
const around = mkdtempSync(join(tmpdir(), 'outside-'))
const own = join(around, 'own')
afterAll(() => rmSync(around, { recursive: true }))

beforeAll(async () => {
  mkdirSync(own)
  const names = [
    'print/Lund-Bjørn.jpg',
    'web/Nu\u0301n\u0303ez.jpg',
    'web/100% sure.jpg',
    'web/two\nlines.jpg',
  ]
  const payload = names.map((file, i) => {
    const path = join(around, `${i}`)
    writeFileSync(path, Buffer.alloc(1000 * i, i))
    return { file, path, bytes: 1000 * i, sha256: null }
  })
  const tags = new Map([['portrait-gate/report.json', '{}\n']])
  await writeBag(
    { payload, tags, info: [['Bagging-Date', '2026-11-25']], sign: null },
    folderSink(own),
    signal,
  )
})

function problemsOf(python: string, bags: readonly string[]): string[][] {
  const out = execFileSync(python, ['tests/outside/bag.py', 'check', ...bags], { encoding: 'utf8' })
  return out
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line).problems)
}

test('the other reading judges the bags of the Library of Congress as they are named', () => {
  if (!python) return
  const suite = unpackedSuite()
  const judged = (ending: RegExp) =>
    problemsOf(
      python,
      suite.bags(ending).map((bag) => join(suite.folder, bag)),
    ).map((problems) => problems.length === 0)
  expect(judged(/^valid$/)).toEqual(Array(13).fill(true))
  expect(judged(INVALID)).toEqual(Array(27).fill(false))
  rmSync(suite.folder, { recursive: true })
})

test('it finds nothing in a bag of ours, and what is changed in it; so do sha256sum and sha512sum', () => {
  if (!python) return
  expect(problemsOf(python, [own])).toEqual([[]])
  for (const name of ['sha256', 'sha512']) {
    const lists = [`manifest-${name}.txt`, `tagmanifest-${name}.txt`]
    // Theirs is another way to write a line break in a name.
    const args = ['--check', '--quiet', '--ignore-missing', ...lists]
    execFileSync(`${name}sum`, args, { cwd: own })
  }
  appendFileSync(join(own, 'data/print/Lund-Bjørn.jpg'), 'x')
  expect(problemsOf(python, [own])[0]).toEqual([
    'manifest-sha256.txt: data/print/Lund-Bjørn.jpg has changed',
    'manifest-sha512.txt: data/print/Lund-Bjørn.jpg has changed',
    'bag-info.txt: Payload-Oxum is another',
  ])
})

test('a bag that it makes is valid here', async () => {
  if (!python) return
  const bag = join(around, 'theirs')
  mkdirSync(bag)
  execFileSync(python, ['tests/outside/bag.py', 'make', bag])
  expect(await validateBag(bag, signal)).toMatchObject({ valid: true, problems: [], warnings: [] })
})
