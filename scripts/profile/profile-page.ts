import { cpus } from 'node:os'
import process from 'node:process'

const PARTS = {
  waiting: 'waiting for the threads of the picture library, which decode',
  networks: 'the networks that find the face, its mesh and the person',
  irises: 'the irises',
  garbage: 'collecting garbage',
  backdrop: 'the backdrop: surfaces, flooding, means, its color and evenness',
  straightening: 'wedges that straightening leaves',
  edges: 'the search for edges and things before the backdrop',
  focus: 'eye-focus',
  glare: 'lens-glare',
  head: 'crown and head height',
  chin: 'the chin',
  enlargement: 'traces of an enlargement',
  skin: 'spectacles, both eyes together, skin: clipping, key light, tint, texture',
  signature: 'the signature that pictures are compared by',
  file: 'the file: reading, hash, header, color profile, metadata',
  decoding: 'handing the picture to the decoder and taking it back',
  copies: 'the copies at 1024 and 512 px, color conversion',
  rest: 'everything else',
} as const

export type Part = keyof typeof PARTS

/**
 * docs/profile.md.
 * @param parts ms a portrait
 * @param cpuMs of all threads, a portrait
 */
export function profilePage(parts: ReadonlyMap<Part, number>, cpuMs: number, portraits: number): string {
  const total = [...parts.values()].reduce((sum, ms) => sum + ms, 0)
  const rows = [...parts]
    .sort(([, a], [, b]) => b - a)
    .map(([part, ms]) => `| ${PARTS[part]} | ${ms.toFixed(1)} | ${((100 * ms) / total).toFixed(0)} % |`)
  return `<!-- Made by npm run profile -- --write; do not edit. -->
# Where the time goes

What one thread does while it measures ${portraits} drawn portraits of 2400 x 3000 px one after the other, with all groups
of measurements, sampled by V8's profiler after a first round. ${cpus()[0]?.model.trim() ?? 'Unknown processor'}, Node
${process.version}. What was tried to reduce it is in [Speed](speed.md).

| part | ms a portrait | share |
| --- | --: | --: |
${rows.join('\n')}
| all | ${total.toFixed(1)} | 100 % |

All threads together, those of the picture library and the garbage collector too, take ${cpuMs.toFixed(0)} ms of processor
time a portrait.
`
}
