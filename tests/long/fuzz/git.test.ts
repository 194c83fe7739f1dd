import { mkdtemp, realpath, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { seeded } from '../../random.ts'
import { randomCase } from './git/cases.ts'
import { makeMaterial } from './git/material.ts'
import { runCase } from './git/run-case.ts'
import { randomSetting } from './git/settings.ts'

// npm run fuzz:git runs more of them: CASES=2000 SEED=31 npm run fuzz:git
const CASES = Number(process.env.CASES ?? 60)
const SEED = Number(process.env.SEED ?? 20261126)

/**
 * Random repositories and changes, by random settings of the action: what a full check of the change fails must not end
 * in 0, whatever the setting, unless a full check of the base fails it in the same way and the change does not touch it.
 * Each case has a seed of its own.
 */
test(`${CASES} random repositories`, { timeout: 20_000 * CASES }, async () => {
  const temp = await realpath(await mkdtemp(join(tmpdir(), 'fuzz git ')))
  const material = await makeMaterial(temp)
  const through: string[] = []
  const counts = { failing: 0, passed: 0, failed: 0, errors: 0, fine: 0, known: 0 }
  for (let n = 0; n < CASES; n++) {
    const random = seeded(SEED + n)
    const one = randomCase(random, material)
    const setting = randomSetting(random, one.paths)
    const { full, refusal, exit, log } = await runCase(one, setting, temp)
    const told = `seed ${SEED + n}: full ${full}, exit ${exit}, ${refusal}; ${one.steps.join('; ')}; ${JSON.stringify(setting)}`
    if (full !== 0) counts.failing++
    else counts.fine++
    if (exit === 0) counts.passed++
    else if (exit === 1) counts.failed++
    else counts.errors++
    if (full !== 0 && exit === 0 && refusal === null) counts.known++
    if (refusal !== null || /error within portrait-gate|\.ts:\d+/.test(log)) through.push(`${told}\n${log}`)
  }
  await rm(temp, { recursive: true })
  process.stdout.write(`fuzz:git seed ${SEED}: ${JSON.stringify(counts)}\n`)
  expect(through).toEqual([])
  // Else the cases would show nothing.
  expect(counts.failing).toBeGreaterThan(CASES / 3)
  expect(counts.passed).toBeGreaterThan(CASES / 30)
  expect(counts.failed).toBeGreaterThan(CASES / 10)
  expect(counts.known).toBeGreaterThan(CASES / 60)
})
