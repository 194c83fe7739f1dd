import { cpuRatio, each, ratio, s } from '../figures.ts'
import { type Ground, script } from '../ground.ts'
import { inTurns } from '../timed.ts'

/** Portraits of the trials by which the best way of decoding is found, and of the rounds. */
const [TRIED, COUNT] = [40, 100]

/** A full check beside decoding alone, the limit of whatever looks at pixels. */
export async function cold(ground: Ground): Promise<string> {
  const { inFlight, threads } = await bestDecoding(ground)
  const folder = await ground.delivery(COUNT)
  const { decode, plain, check } = await inTurns(ground.rounds, {
    decode: () => decoding(folder, inFlight, threads, 'heed'),
    plain: () => decoding(folder, inFlight, threads, 'ignore'),
    check: () => ground.check(folder, 'full', '--no-cache'),
  })
  return `## Cold: ${COUNT} portraits, nothing known of them

| what | s | a portrait | beside | by processor time |
| --- | --: | --: | --- | --- |
| decoding alone, by sharp as it is (${inFlight} at once, ${threads} thread each: the best of eight ways) | ${s(decode)} | ${each(decode, COUNT)} | the limit | |
| decoding alone, color profile ignored | ${s(plain)} | ${each(plain, COUNT)} | ${ratio(plain, decode)} of the limit | ${cpuRatio(plain, decode)} |
| full check, faces and all, \`--no-cache\` | ${s(check)} | ${each(check, COUNT)} | **${ratio(check, decode)} of the limit**, ${ratio(check, plain)} of the one without profile | ${cpuRatio(check, decode)}, ${cpuRatio(check, plain)} |

The profile of a picture that is sRGB already is not converted by: that changes no code and takes longer than decoding.
`
}

function decoding(folder: string, inFlight: number, threads: number, profile: 'heed' | 'ignore') {
  return script('decode-all', folder, String(inFlight), String(threads), profile)
}

async function bestDecoding({ delivery, say }: Ground) {
  const folder = await delivery(TRIED)
  const tried: { inFlight: number; threads: number; seconds: number }[] = []
  for (const threads of [1, 2])
    for (const inFlight of [1, 2, 3, 4]) {
      say(`Decoding, ${inFlight} at once, ${threads} threads each`)
      tried.push({ inFlight, threads, seconds: (await decoding(folder, inFlight, threads, 'heed')).seconds })
    }
  const [best] = tried.sort((a, b) => a.seconds - b.seconds)
  if (!best) throw new Error('Nothing was decoded.')
  return best
}
