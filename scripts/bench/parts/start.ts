import { join } from 'node:path'
import { nameOf } from '../corpus.ts'
import { CACHE, CLI, type Ground, node } from '../ground.ts'
import { inTurns } from '../timed.ts'

/** What one command takes, beside Node itself. */
export async function start({ rounds, delivery, check }: Ground): Promise<string> {
  const one = join(await delivery(1), nameOf(0))
  await check(one, 'full', '--cache', CACHE)
  const runs = await inTurns(2 * rounds + 1, {
    'node -e 0': () => node(['-e', '0']),
    '`--version`': () => node([CLI, '--version']),
    '`explain headroom`': () => node([CLI, 'explain', 'headroom']),
    'a check of one portrait, cold': () => check(one, 'full', '--no-cache'),
    'a check of one portrait, known': () => check(one, 'full', '--cache', CACHE),
  })
  const least = runs['node -e 0'].seconds
  const rows = Object.entries(runs).map(
    ([name, { seconds }]) =>
      `| ${name} | ${(1000 * seconds).toFixed(0)} | ${(1000 * (seconds - least)).toFixed(0)} |`,
  )
  return `## Start-up

| what | ms | beyond \`node -e 0\` |
| --- | --: | --: |
${rows.join('\n')}
`
}
