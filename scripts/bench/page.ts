import { arch, cpus, release, totalmem, type } from 'node:os'
import process from 'node:process'
import { HEIGHT, WIDTH } from './corpus.ts'
import type { Run } from './timed.ts'

export interface Scale {
  readonly count: number
  readonly seconds: number
  readonly peakMiB: number | null
}

export interface Figures {
  /** Portraits in the cold runs, and in the warm ones. */
  readonly files: number
  readonly most: number
  readonly limit: { readonly inFlight: number; readonly threads: number }
  readonly cold: Readonly<Record<'decode' | 'decodePlain' | 'check', Run>>
  readonly scales: readonly Scale[]
  readonly warm: Readonly<Record<'warm' | 'changed' | 'rehash' | 'hash', Run>>
  readonly light: Readonly<Record<'files' | 'exiftool', Run>>
  readonly start: Readonly<
    Record<'node' | 'version' | 'explain' | 'one' | 'oneWarm' | 'oneFile' | 'oneByExiftool', Run>
  >
}

/** docs/benchmark.md: every figure beside what it is to be compared with. */
export function benchPage(
  { files, most, limit, cold, scales, warm, light, start }: Figures,
  cores: number,
): string {
  const [smallest] = scales
  const beyondStart = (run: Run) => run.seconds - start.version.seconds
  const each = (run: Run, count: number) => ms(run.seconds / count)
  const more = (run: Run, one: Run) => (run.seconds - one.seconds) / (most - 1)
  const eachMore = {
    files: more(light.files, start.oneFile),
    exiftool: more(light.exiftool, start.oneByExiftool),
  }
  return `<!-- Made by npm run bench -- --write; do not edit. -->
# Benchmark

Ratios, measured side by side in one run, with the middle of several rounds in turns. The times are of one machine:
${cpus()[0]?.model.trim() ?? 'unknown processor'}, ${cores} cores, ${Math.round(totalmem() / 2 ** 30)} GiB,
${type()} ${release()} ${arch()}, Node ${process.version}. Portraits are drawn, ${WIDTH} x ${HEIGHT} px, JPEG quality 92
with grain and an sRGB profile; those beyond ${files} are links to the same files.

## Cold: ${files} portraits, nothing known of them

| what | s | a portrait | beside |
| --- | --: | --: | --- |
| decoding alone, by sharp as it is (${limit.inFlight} at once, ${limit.threads} thread each: the best of eight ways) | ${s(cold.decode)} | ${each(cold.decode, files)} | the limit |
| decoding alone, color profile ignored | ${s(cold.decodePlain)} | ${each(cold.decodePlain, files)} | ${ratio(cold.decodePlain, cold.decode)} of the limit |
| full check, faces and all, \`--no-cache\` | ${s(cold.check)} | ${each(cold.check, files)} | **${ratio(cold.check, cold.decode)} of the limit**, ${ratio(cold.check, cold.decodePlain)} of the one without profile |

The profile of a picture that is sRGB already is not converted by: that changes no code and takes longer than decoding.

## Files alone: ${most} files, no picture decoded (\`intact: false\`)

| what | s | a file | each file more | beside |
| --- | --: | --: | --: | --- |
| check of names, sizes, format, color space and metadata | ${s(light.files)} | ${each(light.files, most)} | ${ms(eachMore.files)} | **${ratio(light.files, light.exiftool)} of the metadata reader**, each file more ${(eachMore.files / eachMore.exiftool).toFixed(2)} |
| ExifTool (Debian's libimage-exiftool-perl), \`exiftool -j -r\` | ${s(light.exiftool)} | ${each(light.exiftool, most)} | ${ms(eachMore.exiftool)} | |

A file more: beyond what one file alone takes, which is mostly the start.

## Warm: ${most} portraits, all known

| what | s | beyond start-up | beside |
| --- | --: | --: | --- |
| full check again | ${s(warm.warm)} | **${ms(beyondStart(warm.warm))}** | |
| full check by a changed spec | ${s(warm.changed)} | ${ms(beyondStart(warm.changed))} | ${ratio(warm.changed, warm.warm)} of the one before |
| full check again, \`--rehash\` | ${s(warm.rehash)} | ${ms(beyondStart(warm.rehash))} | **${ratio(warm.rehash, warm.hash)} of hashing alone** |
| hashing the same files alone, a thread a core | ${s(warm.hash)} | | |

## Memory: full check, cold

| portraits | peak, MiB | beside | s |
| --: | --: | --: | --: |
${scales.map((scale) => `| ${scale.count} | ${scale.peakMiB?.toFixed(0) ?? ''} | ${part(scale.peakMiB, smallest?.peakMiB)} | ${scale.seconds.toFixed(1)} |`).join('\n')}

## Start-up

| what | ms | beyond \`node -e 0\` |
| --- | --: | --: |
${Object.entries({
  'node -e 0': start.node,
  '`--version`': start.version,
  '`explain headroom`': start.explain,
  'a check of one portrait, cold': start.one,
  'a check of one portrait, known': start.oneWarm,
})
  .map(
    ([name, run]) =>
      `| ${name} | ${(1000 * run.seconds).toFixed(0)} | ${(1000 * (run.seconds - start.node.seconds)).toFixed(0)} |`,
  )
  .join('\n')}
`
}

function s({ seconds }: Run): string {
  return seconds.toFixed(2)
}

function ms(seconds: number): string {
  return seconds >= 1 ? `${seconds.toFixed(2)} s` : `${(1000 * seconds).toFixed(seconds < 0.01 ? 2 : 0)} ms`
}

function ratio(run: Run, other: Run): string {
  return (run.seconds / other.seconds).toFixed(2)
}

function part(value: number | null, of: number | null | undefined): string {
  return value === null || !of ? '' : (value / of).toFixed(2)
}
