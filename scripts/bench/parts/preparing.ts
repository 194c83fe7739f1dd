import { cpuRatio, each, ratio, s } from '../figures.ts'
import { type Ground, script } from '../ground.ts'
import { inTurns } from '../timed.ts'

const MASTERS = 20
/** Of each master. */
const FILES = 2

/** From masters to files as prepare makes them, beside the picture library alone. */
export async function preparing({ rounds, delivery }: Ground): Promise<string> {
  const folder = await delivery(MASTERS)
  const { ours, codes, light } = await inTurns(rounds, {
    ours: () => script('make-all', folder, 'ours'),
    codes: () => script('make-all', folder, 'codes'),
    light: () => script('make-all', folder, 'light'),
  })
  return `## Preparing: ${FILES} files each of ${MASTERS} masters, decoded once, cut out, made smaller, encoded

| what | s | a file | beside | by processor time |
| --- | --: | --: | --- | --- |
| as \`prepare\` makes them, in linear light | ${s(ours)} | ${each(ours, FILES * MASTERS)} | | |
| the picture library alone, on codes, as it does by default | ${s(codes)} | ${each(codes, FILES * MASTERS)} | **ours ${ratio(ours, codes)} of it** | ${cpuRatio(ours, codes)} |
| the picture library alone, in linear light | ${s(light)} | ${each(light, FILES * MASTERS)} | **ours ${ratio(ours, light)} of it** | ${cpuRatio(ours, light)} |

One after the other, start-up included; without measuring the masters and judging the files.
`
}
