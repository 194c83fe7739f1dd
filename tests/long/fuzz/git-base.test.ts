import { mkdir, mkdtemp, readFile, realpath, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { isDeepStrictEqual } from 'node:util'
import { expect, test } from 'vitest'
import { baseDelivery } from '../../../src/action/base-delivery.ts'
import { readCheckout } from '../../../src/action/git/checkout.ts'
import { Comparison } from '../../../src/action/git/comparison.ts'
import { Scope } from '../../../src/action/git/scope.ts'
import { Tree } from '../../../src/action/git/tree.ts'
import { UsageError } from '../../../src/checking/usage-error.ts'
import { type Found, type FoundFile, findFiles } from '../../../src/delivery/walk.ts'
import { holdsPhotograph } from '../../../src/measure/file/container/holds-photograph.ts'
import { emptyRepository, gitEach } from '../../action/runner/git.ts'
import { importCommits } from '../../action/runner/import.ts'
import { checkoutSubmodules } from '../../action/runner/repository.ts'
import { seeded } from '../../random.ts'
import { type Case, randomCase } from './git/cases.ts'
import { makeMaterial } from './git/material.ts'

const CASES = Number(process.env.CASES ?? 60)
const SEED = Number(process.env.SEED ?? 20261127)
const { signal } = new AbortController()
const ENV = { PATH: process.env.PATH, GIT_CONFIG_GLOBAL: '/dev/null', GIT_CONFIG_NOSYSTEM: '1' }

/**
 * What is taken for the delivery of the base must be what a checkout of the base has, file by file, byte by byte: were one
 * missing, whoever it shows would be taken for missing before.
 */
test(`the base of ${CASES} random changes, against a checkout of it`, {
  timeout: 20_000 * CASES,
}, async () => {
  const temp = await realpath(await mkdtemp(join(tmpdir(), 'fuzz base ')))
  const material = await makeMaterial(temp)
  const wrong: string[] = []
  const counts = { told: 0, changed: 0, untold: 0 }
  for (let n = 0; n < CASES; n++) {
    const one = randomCase(seeded(SEED + n), material)
    const home = join(temp, `case ${n}`)
    const { made, real, touched } = await bothOf(one, home)
    if (made === null) counts.untold++
    else counts.told++
    if (touched) counts.changed++
    if (made && !isDeepStrictEqual(made, real)) wrong.push(`seed ${SEED + n}: ${one.steps.join('; ')}`)
    await rm(home, { recursive: true })
  }
  await rm(temp, { recursive: true })
  process.stdout.write(`fuzz:git base, seed ${SEED}: ${JSON.stringify(counts)}\n`)
  expect(wrong).toEqual([])
  // Else the cases would show nothing.
  expect(counts.changed).toBeGreaterThan(CASES / 4)
})

/** The base as it is made out from the change's own checkout (null when it can't be), and as it is checked out. */
async function bothOf({ base, head, paths }: Case, home: string) {
  const [work, other, stand] = ['work', 'base', 'stand'].map((name) => join(home, name)) as [
    string,
    string,
    string,
  ]
  await mkdir(stand, { recursive: true })
  await emptyRepository(join(work, '.git'), '')
  const [before = '', after = ''] = await importCommits(work, [
    { paths: base, parents: [] },
    { paths: head, parents: [1] },
  ])
  await gitEach(
    work,
    ['checkout', '-q', '--force', '--detach', after],
    ['worktree', 'add', '-q', '--detach', other, before],
  )
  for (const folder of [work, other]) await checkoutSubmodules(folder)
  const found = await find(work, paths)
  const checkout = await readCheckout(work, ENV, signal)
  if (!checkout) throw new Error('The checkout is a repository.')
  const comparison = await Comparison.of(checkout.git, await Tree.of(checkout.git, before), checkout.head)
  const given = paths.split('\n').map((path) => resolve(work, path))
  const scope = await Scope.of(work, given)
  const real = await listed((await find(other, paths)).files)
  try {
    const made = await baseDelivery({ comparison, scope, paths: given }, found, stand, null)
    return { made: await listed(made), real, touched: made.some(({ path }) => path.startsWith(stand)) }
  } catch (error) {
    if (!(error instanceof UsageError)) throw error
    return { made: null, real, touched: false }
  } finally {
    checkout.git.close()
  }
}

function find(folder: string, paths: string): Promise<Found> {
  const full = paths.split('\n').map((path) => resolve(folder, path))
  return findFiles(full, folder, { signal, holdsPhotograph })
}

/** "web/a.jpg 0a1b…" for each file; of a link that is not followed, where it leads. */
async function listed(files: readonly FoundFile[]): Promise<string[]> {
  return Promise.all(
    files.map(async ({ file, path, astray }) => {
      const content = astray ?? (await readFile(path)).toString('base64')
      return `${file} ${content}`
    }),
  )
}
