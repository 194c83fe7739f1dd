import { mkdir, mkdtemp } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { usesIn, wrongPin } from '../../scripts/pins/pins.ts'
import { git } from '../action/runner/git.ts'

const COMMIT = 'a'.repeat(40)
let forge: string
let first: string
let second: string
beforeAll(async () => {
  forge = await mkdtemp(join(tmpdir(), 'forge-'))
  const folder = join(forge, 'actions', 'checkout')
  await mkdir(folder, { recursive: true })
  await git(folder, 'init', '-q')
  const commit = async () => {
    await git(folder, 'commit', '-q', '--allow-empty', '-m', 'A release')
    return git(folder, 'rev-parse', 'HEAD')
  }
  first = await commit()
  await git(folder, 'tag', 'v1.0.0')
  second = await commit()
  await git(folder, 'tag', '-a', '-m', 'A release', 'v2.0.0')
})

test('uses are read with their tags; our own placeholder is none', () => {
  const text = [
    `- uses: actions/checkout@${COMMIT} # v5.0.0`,
    `  uses: actions/cache/restore@${COMMIT}`,
    '- uses: other/thing@v1',
    '- uses: OWNER/portrait-gate@v0.1.0',
  ].join('\n')
  expect(usesIn(text)).toEqual([
    { repository: 'actions/checkout', commit: COMMIT, tag: 'v5.0.0' },
    { repository: 'actions/cache', commit: COMMIT, tag: null },
    { repository: 'other/thing', commit: 'v1', tag: null },
  ])
})

test('a pin is right when it is the commit of its tag, a plain or an annotated one', async () => {
  const pin = (commit: string, tag: string | null) =>
    wrongPin({ repository: 'actions/checkout', commit, tag }, `file://${forge}`)
  expect(await pin(first, 'v1.0.0')).toBeNull()
  expect(await pin(second, 'v2.0.0')).toBeNull()
  expect(await pin(first, 'v2.0.0')).toBe(`actions/checkout@${first} is not v2.0.0, which is ${second}.`)
  expect(await pin(first, 'v3.0.0')).toContain('has no tag v3.0.0')
  expect(await pin(first, null)).toContain('does not say which tag')
  expect(await pin('v1.0.0', 'v1.0.0')).toContain('is no full commit')
  const lost = await wrongPin({ repository: 'actions/gone', commit: first, tag: 'v1.0.0' }, `file://${forge}`)
  expect(lost).toContain('could not be looked up')
})
