import type { Measurements } from '../../measure/schema/measurements.ts'
import { count, listed } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { formatName } from '../judging/format-names.ts'

type Others = NonNullable<Measurements['others']>

/**
 * The finding on a file that may hold more than the picture that was measured: nobody looked at what else it holds, so
 * it never passes.
 */
export function withOthers(finding: Finding, others: Others | null): Finding {
  if (!others || others.length === 0) return finding
  const held = listed(others.map(nameOf))
  return {
    ...finding,
    verdict: finding.verdict === 'fail' ? 'fail' : 'unsure',
    measured: listed([finding.measured ?? '', held].filter((text) => text !== '')),
    reason: `${finding.reason} The file also holds ${held}, which was not judged; check it by eye.`,
    export: { from: 'file', ...finding.export, leaveOut: ['other-content'] },
    fix: [finding.fix, 'Export again, so that the file holds one picture and nothing else.']
      .filter((text) => text !== undefined)
      .join(' '),
  }
}

const ARCHIVES = ['zip', '7z', 'rar']

function nameOf({ what, count: number, bytes }: Others[number]): string {
  const size = bytes === null ? '' : `, ${count(bytes, 'byte')}`
  if (what === 'page') return count(number, 'further page')
  if (what === 'item') return count(number, 'further picture')
  if (what === 'movie') return `a film${bytes === null ? '' : ` (${count(bytes, 'byte')})`}`
  const kind = ARCHIVES.includes(what) ? 'an archive' : what === 'pdf' ? 'a document' : 'another picture'
  return `${kind} (${formatName(what)}${size})`
}
