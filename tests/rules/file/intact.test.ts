import type { FaultKind } from '../../../src/measure/schema/fault.ts'
import { intact } from '../../../src/rules/file/intact.ts'
import { testCases, testRefused, UNREAD } from '../judging/cases.ts'

const fault = (kind: FaultKind, detail = '') => ({ ...UNREAD, fault: { kind, detail } })

testCases(intact, [
  { what: 'whole', options: true, verdict: 'pass', says: ['decodes to its last row without a warning'] },
  {
    what: 'not decoded',
    options: true,
    measured: { intact: null },
    verdict: 'unsure',
    says: ['Whether the picture is whole was not measured'],
  },
  {
    what: 'a decoder that warned, with no fault told',
    options: true,
    measured: { intact: false },
    verdict: 'fail',
    says: ['The file is damaged', 'Export or copy it again from the original.'],
  },
  {
    what: 'a fault beside a claim of being whole',
    options: true,
    measured: { intact: true, fault: { kind: 'corrupt', detail: '' } },
    verdict: 'fail',
  },
  {
    what: 'truncated',
    options: true,
    measured: fault('truncated'),
    verdict: 'fail',
    says: ['truncated: the picture ends before its last row', 'did not finish'],
    found: 'truncated',
  },
  {
    what: 'damaged, with the decoder’s words',
    options: true,
    measured: fault('corrupt', ' bad Huffman code\n'),
    verdict: 'fail',
    says: ['the decoder reported a problem ("bad Huffman code");'],
  },
  { what: 'empty', options: true, measured: fault('empty'), verdict: 'fail', says: ['is empty (0 bytes)'] },
  {
    what: 'a Git LFS pointer',
    options: true,
    measured: fault('lfs-pointer'),
    verdict: 'fail',
    says: ['The checkout has no LFS content', 'Run git lfs pull, or set lfs: true in the checkout step.'],
  },
  {
    what: 'not to be opened',
    options: true,
    measured: fault('unreadable', 'EACCES: permission denied'),
    verdict: 'fail',
    says: ['could not be opened ("EACCES: permission denied")', 'you may read it'],
  },
  {
    what: 'too large',
    options: true,
    measured: fault('too-large', '400000000 pixels'),
    verdict: 'fail',
    says: ['too large to be judged safely', 'at the ordered pixel size'],
  },
  {
    what: 'not a picture',
    options: true,
    measured: fault('not-a-picture'),
    verdict: 'skip',
    says: ['see file-format'],
  },
  { what: 'a foreign format', options: true, measured: fault('format'), verdict: 'skip' },
])

testRefused(intact, [['a word', 'yes']])
