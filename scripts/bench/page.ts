import { arch, availableParallelism, cpus, release, totalmem, type } from 'node:os'
import process from 'node:process'
import { HEIGHT, WIDTH } from './corpus.ts'

/** docs/benchmark.md of the sections of all parts. @param drawn portraits that are drawn */
export function benchPage(sections: readonly string[], drawn: number): string {
  return `<!-- Made by npm run bench -- --write; do not edit. -->
# Benchmark

Ratios, measured side by side in one run: the middle of those of several rounds, in turns. The times are of one machine:
${cpus()[0]?.model.trim() ?? 'unknown processor'}, ${availableParallelism()} cores, ${Math.round(totalmem() / 2 ** 30)} GiB,
${type()} ${release()} ${arch()}, Node ${process.version}. Portraits are drawn, ${WIDTH} x ${HEIGHT} px, JPEG quality 92
with grain and an sRGB profile; those beyond ${drawn} are links to the same files.

${sections.join('\n')}`
}
