import { segment } from '../../../measure/file/bytes/jpeg-writer.ts'
import { chunk } from '../../../measure/file/bytes/png-writer.ts'
import { packet, xmpSegment } from '../../../measure/metadata/formats/xmp-writer.ts'
import { pick, type Random } from '../chance.ts'
import { partsOf } from '../parts.ts'
import { overwrite } from './bytes.ts'
import type { Mutator } from './mutator.ts'

const ENTITIES = Array.from({ length: 30 }, (_, n) => `<!ENTITY a${n + 1} "&a${n};&a${n};">`).join('')

/** Packets that would fill the memory or the stack of whoever trusted them. A few fit into one JPEG segment. */
const PACKETS: readonly ((random: Random) => Buffer)[] = [
  () =>
    Buffer.from(
      `<!DOCTYPE x [<!ENTITY a0 "ha">${ENTITIES}]><x:xmpmeta xmlns:x="adobe:ns:meta/">&a30;</x:xmpmeta>`,
    ),
  () => Buffer.from('<!DOCTYPE x [<!ENTITY f SYSTEM "file:///etc/passwd">]><x>&f;</x>'),
  () => packet('<dc:title>'.concat('<a>'.repeat(15_000))),
  () => packet('<xmp:a/>'.repeat(7000)),
  () => packet(`<dc:title>${'&#x41;'.repeat(9000)}</dc:title>`),
  () => packet('', Array.from({ length: 3000 }, (_, n) => `xmp:a${n}="x"`).join(' ')),
  () => packet(`<a xmlns="${'n'.repeat(30_000)}">${'<b/>'.repeat(4000)}</a>`),
  () => Buffer.concat([packet(''), Buffer.alloc(50_000), Buffer.from('x')]),
  (random) => overwrite(packet('<dc:creator><rdf:Seq><rdf:li>x</rdf:li></rdf:Seq></dc:creator>'), random),
  () => Buffer.from('\ufeff'.concat('<'.repeat(20_000)), 'utf16le'),
]

/** The picture with one more packet, or with its own spoiled where packets can't be added. */
export const hostileXmp: Mutator = (content, random) => {
  const hostile = pick(random, PACKETS)(random)
  const [first, second] = partsOf(content)
  if (content[0] === 0xff && first)
    return inserted(content, first.from, segment(0xe1, xmpSegment(hostile.subarray(0, 65_000))))
  if (content[0] === 0x89 && second)
    return inserted(
      content,
      second.from,
      chunk('iTXt', Buffer.concat([Buffer.from('XML:com.adobe.xmp\0\0\0\0\0'), hostile])),
    )
  const at = content.indexOf('<x:xmpmeta')
  if (at < 0) return overwrite(content, random)
  const copy = Buffer.from(content)
  hostile.copy(copy, at, 0, Math.min(hostile.length, copy.length - at, 2000))
  return copy
}

function inserted(content: Buffer, at: number, part: Buffer): Buffer {
  return Buffer.concat([content.subarray(0, at), part, content.subarray(at)])
}
