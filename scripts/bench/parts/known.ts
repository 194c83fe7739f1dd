import { cpuRatio, ms, ratio, s } from '../figures.ts'
import { CACHE, CLI, type Ground, node, script } from '../ground.ts'
import { inTurns, type Run } from '../timed.ts'

/** Portraits that the cache knows, beside hashing them alone. */
export async function known({ most, rounds, delivery, check, say }: Ground): Promise<string> {
  const folder = await delivery(most)
  say('Filling the cache')
  await check(folder, 'full', '--cache', CACHE)
  const { version, warm, changed, rehash, hash } = await inTurns(rounds, {
    version: () => node([CLI, '--version']),
    warm: () => check(folder, 'full', '--cache', CACHE),
    changed: () => check(folder, 'other', '--cache', CACHE),
    rehash: () => check(folder, 'full', '--cache', CACHE, '--rehash'),
    hash: () => script('hash-all', folder),
  })
  const beyondStart = ({ seconds }: Run) => ms(seconds - version.seconds)
  return `## Warm: ${most} portraits, all known

| what | s | beyond start-up | beside | by processor time |
| --- | --: | --: | --- | --- |
| full check again | ${s(warm)} | **${beyondStart(warm)}** | | |
| full check by a changed spec | ${s(changed)} | ${beyondStart(changed)} | ${ratio(changed, warm)} of the one before | ${cpuRatio(changed, warm)} |
| full check again, \`--rehash\` | ${s(rehash)} | ${beyondStart(rehash)} | **${ratio(rehash, hash)} of hashing alone** | ${cpuRatio(rehash, hash)} |
| hashing the same files alone, a thread a core | ${s(hash)} | | | |
`
}
