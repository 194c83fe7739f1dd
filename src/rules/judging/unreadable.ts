import type { Metadata } from '../../measure/schema/metadata.ts'
import { listed } from '../../text/quantity.ts'

const WHY: Readonly<Record<Metadata['unreadable'][number]['why'], string>> = {
  damaged: 'is damaged',
  'too-large': 'exceeds the limit of 1 MiB',
  'too-many': 'occurs too often to read it all',
  unsupported: 'is in an unsupported form',
}

/** Which blocks of metadata could not be read, to go on a sentence: "EXIF is damaged"; null when all were. */
export function unreadableText({ unreadable }: Metadata): string | null {
  return unreadable.length === 0 ? null : listed(unreadable.map(({ where, why }) => `${where} ${WHY[why]}`))
}
