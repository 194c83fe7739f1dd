import { rm } from 'node:fs/promises'
import { quotient } from '../figures.ts'
import { CACHE, type Ground } from '../ground.ts'

/** Peak memory of a large delivery over that of a small one. */
export async function memory({ drawn, most, anew, delivery, check, say }: Ground): Promise<string> {
  say(`Checking ${drawn} portraits with no cache`)
  const small = await check(await delivery(drawn), 'full', '--no-cache')
  say(`Checking ${most} portraits`)
  await rm(CACHE, { recursive: true, force: true })
  const large = await check(
    await delivery(most),
    'full',
    ...(anew ? ['--no-cache'] : ['--cache', CACHE, '--rehash']),
  )
  const measured = anew ? most : drawn
  const row = (count: number, anew: number, { peakMiB, seconds }: typeof small) =>
    `| ${count} | ${anew} | ${peakMiB?.toFixed(0) ?? ''} | **${quotient(peakMiB, small.peakMiB)}** | ${seconds.toFixed(1)} |`
  return `## Memory: full check, cold

| portraits | measured anew | peak, MiB | beside | s |
| --: | --: | --: | --: | --: |
${row(drawn, drawn, small)}
${row(most, measured, large)}

What is not measured anew is read, hashed and found in a cache that was empty at first: the pixels of so many portraits pass through, and the
measurements and outcomes of all are held. \`npm run bench -- --parts memory --anew\` measures each of them.
`
}
