import { Type } from '@sinclair/typebox'
import type { Fault, FaultKind } from '../../measure/schema/fault.ts'
import { quoted } from '../../text/quoted.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { skipped, unmeasured } from '../judging/unmeasured.ts'

/** Faults that are about the format; the rule `file-format` has the sentences for them. */
type FormatFault = 'not-a-picture' | 'format'
interface Sentences {
  readonly short: string
  readonly reason: string
  readonly fix: string
  /** Whether exporting the original again brings the picture back. */
  readonly isExported: boolean
}

const AGAIN = 'Export or copy it again from the original.'
const FAULTS: Readonly<Record<Exclude<FaultKind, FormatFault>, Sentences>> = {
  unreadable: {
    short: 'not readable',
    reason: 'The file could not be opened',
    fix: 'Check that it is a regular file, still there, and that you may read it.',
    isExported: false,
  },
  link: {
    short: 'link',
    reason: 'The file is a link, but not to a picture in the delivery',
    fix: 'Put the picture itself in its place.',
    isExported: false,
  },
  empty: {
    short: 'empty',
    reason: 'The file is empty (0 bytes)',
    fix: `The copy or upload did not finish. ${AGAIN}`,
    isExported: true,
  },
  'lfs-pointer': {
    short: 'Git LFS pointer',
    reason: 'The checkout has no LFS content: the file is a Git LFS pointer and not the picture',
    fix: 'Run git lfs pull, or set lfs: true in the checkout step.',
    isExported: false,
  },
  truncated: {
    short: 'truncated',
    reason: 'The file is truncated: the picture ends before its last row',
    fix: `The copy or upload did not finish. ${AGAIN}`,
    isExported: true,
  },
  corrupt: {
    short: 'damaged',
    reason: 'The file is damaged: the decoder reported a problem',
    fix: AGAIN,
    isExported: true,
  },
  'too-large': {
    short: 'too large',
    reason: 'The picture is too large to be judged safely',
    fix: 'Export it again at the ordered pixel size.',
    isExported: true,
  },
  'not-measured': {
    short: 'not measured',
    reason: 'The file could not be measured within the limits of time and memory',
    fix: 'Export it again at the ordered pixel size; if that does not help, report a bug.',
    isExported: true,
  },
}

const EXPECTED = 'a complete picture'

export const intact = defineRule({
  id: 'intact',
  severity: 'unusable',
  dependsOn: 'scene',
  text: {
    title: 'A complete, undamaged picture',
    measures:
      'Whether the file opens and decodes to its last row without a warning. With intact: false, a picture that no other rule needs is not decoded: a truncated file still fails, but damage inside it is not seen.',
    why: 'A truncated upload looks fine in a folder and breaks on the page.',
    fix: 'Export or copy the file again from the original.',
    example: 'intact: true',
  },
  options: Type.Literal(true, {
    description: 'On by default. Switched off, a picture is decoded only if another rule needs it.',
  }),
  always: true,
  needs: ['file', 'decode'],
  judge({ measured }) {
    if (measured.fault) return judgeFault(measured.fault)
    if (measured.intact === null) return unmeasured(measured, 'Whether the picture is whole')
    if (!measured.intact) return judgeFault({ kind: 'corrupt', detail: '' })
    return {
      verdict: 'pass',
      measured: 'decodes to the last row',
      expected: EXPECTED,
      reason: 'The picture decodes to its last row without a warning.',
    }
  },
})

function judgeFault({ kind, detail }: Fault): Finding {
  if (kind === 'not-a-picture' || kind === 'format')
    return skipped('There is no picture to read; see file-format.')
  const { short, reason, fix, isExported } = FAULTS[kind]
  const said = detail.trim() === '' ? '' : ` (${quoted(detail.trim())})`
  return {
    verdict: 'fail',
    measured: short,
    expected: EXPECTED,
    reason: `${reason}${said}; the spec asks for a complete picture.`,
    fix,
    ...(isExported && { export: { from: 'original' as const } }),
  }
}
