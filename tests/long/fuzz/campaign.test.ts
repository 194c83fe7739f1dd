import { execFile } from 'node:child_process'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { beforeAll, describe, expect, test } from 'vitest'
import { built } from '../../pool/built.ts'
import { runCampaign, type Summary } from './campaign.ts'
import { judged, strictSpec } from './judged.ts'
import { mutant } from './mutant.ts'
import { drawOriginals } from './originals.ts'

const run = promisify(execFile)
const FILES = 1000

let build = ''
beforeAll(async () => {
  build = await built()
})

test(`${FILES} spoiled pictures: none crashes, hangs, is told wrong, or passes with what is no longer true`, async () => {
  const script = join(build, 'scripts', 'fuzz.js')
  const { stdout } = await run(process.execPath, [script, '--files', String(FILES), '--seed', '7'])
  const { findings, files, fates, passed, largestMiB } = JSON.parse(stdout) as Summary
  expect(findings).toEqual([])
  expect(files).toBe(FILES)
  // A campaign in which nothing passed, or everything did, would have tried nothing.
  expect(passed).toBeGreaterThan(FILES / 50)
  for (const fate of ['whole', 'corrupt', 'truncated']) expect(fates[fate], fate).toBeGreaterThan(FILES / 10)
  // The face networks take some 300 MiB of it.
  expect(largestMiB).toBeLessThan(1536)
})

test('the originals meet the strict spec as they should, before they are spoiled', async () => {
  const { measure } = await import('../../../src/measure/measure.ts')
  const { temporaryFile } = await import('../../measure/samples.ts')
  for (const { name, format, content, meets } of await drawOriginals()) {
    const path = temporaryFile(`a.${format === 'jpeg' ? 'jpg' : format}`, content)
    const measured = await measure({ path, file: path }, ['file', 'decode', 'metadata'])
    const passed = judged(measured, strictSpec(format)).filter(({ verdict }) => verdict === 'pass')
    expect(passed.map(({ rule }) => rule).sort(), name).toEqual([...meets].sort())
  }
})

test('a number is always the same file, and its neighbor another one', async () => {
  const originals = await drawOriginals()
  for (const number of [0, 11, 4711]) {
    expect(mutant(number, 1, originals).content.equals(mutant(number, 1, originals).content)).toBe(true)
    expect(mutant(number, 1, originals).content.equals(mutant(number + 1, 1, originals).content)).toBe(false)
  }
  expect(mutant(11, 1, originals).content.equals(mutant(11, 2, originals).content)).toBe(false)
})

describe('the watch over the processes', () => {
  /** A campaign whose process does this at file 2, and examines the others. */
  function campaignWith(trouble: string, fileSeconds = 60) {
    const script = `
      const { from, to } = JSON.parse(process.argv[1])
      const tell = (message) => process.stdout.write(JSON.stringify(message) + '\\n')
      ;(async () => {
        for (let number = from; number < to; number++) {
          tell({ kind: 'start', number })
          await new Promise((done) => setTimeout(done, 20))
          if (number === 2) { ${trouble} }
          tell({ kind: 'done', number, fate: 'whole', passes: false, ms: 1 })
        }
        tell({ kind: 'end', largestMiB: 1 })
      })()`
    return runCampaign({
      ...{ files: 5, seed: 1, processes: 1, fileSeconds, progress: () => {} },
      start: (range) => [process.execPath, ['-e', script, JSON.stringify(range)]],
    })
  }

  test('tells the file at which one crashes, and goes on behind it', async () => {
    const { findings, files } = await campaignWith(
      'process.kill(process.pid, "SIGSEGV"); await new Promise(() => {})',
    )
    expect(findings).toEqual([
      expect.stringMatching(/^file 2 \(crash or hang\): the process ended \(SIGSEGV\)/),
    ])
    expect(files).toBe(4)
  })

  test('tells the file at which one hangs', async () => {
    const { findings, files } = await campaignWith('for (;;) {}', 1)
    expect(findings).toEqual([expect.stringContaining('took longer than 1 s of the processor')])
    expect(files).toBe(4)
  })
})
