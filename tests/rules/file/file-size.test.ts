import { fileSize } from '../../../src/rules/file/file-size.ts'
import { testCases, testRefused, UNREAD } from '../judging/cases.ts'

const small = { max: '3 MB' }

testCases(fileSize, [
  {
    what: 'inside',
    options: small,
    measured: { bytes: 1_800_000 },
    verdict: 'pass',
    says: ['The file is 1.8 MB; the spec asks for at most 3 MB.'],
    found: '1.8 MB',
    asked: 'at most 3 MB',
  },
  // SI (IEC 80000-13): 1 MB is 1,000,000 bytes, not 1,048,576.
  { what: 'at the upper limit', options: small, measured: { bytes: 3_000_000 }, verdict: 'pass' },
  {
    what: 'one byte over it never reads as 3 MB',
    options: small,
    measured: { bytes: 3_000_001 },
    verdict: 'fail',
    says: ['3.000001 MB', 'at a lower quality or pixel size'],
  },
  { what: 'at the lower limit', options: { min: '200 kB' }, measured: { bytes: 200_000 }, verdict: 'pass' },
  {
    what: 'one byte under it',
    options: { min: '200 kB' },
    measured: { bytes: 199_999 },
    verdict: 'fail',
    says: ['199.999 kB', 'at least 200 kB', 'saving this file larger adds no detail'],
  },
  {
    what: 'both ends, decimals, no space, large K',
    options: { min: '0.2MB', max: '1.5 MB' },
    measured: { bytes: 1_499_999 },
    verdict: 'pass',
    says: ['200 kB to 1.5 MB'],
  },
  {
    what: 'units of the two numbers differ',
    options: { min: '1 MB' },
    measured: { bytes: 999_999 },
    verdict: 'fail',
    says: ['999.999 kB', 'at least 1 MB'],
  },
  { what: 'bytes and KB', options: { min: '512 B', max: '1 KB' }, measured: { bytes: 512 }, verdict: 'pass' },
  {
    what: 'one size allowed, in two units',
    options: { min: '1 kB', max: '1000 B' },
    measured: { bytes: 1000 },
    verdict: 'pass',
    found: '1 kB',
  },
  { what: 'gigabytes', options: { max: '1 GB' }, measured: { bytes: 1_000_000_001 }, verdict: 'fail' },
  { what: 'unreadable file', options: small, measured: { ...UNREAD, bytes: 10 }, verdict: 'skip' },
  {
    what: 'a file refused for its size is judged by its size',
    options: small,
    measured: { ...UNREAD, fault: { kind: 'too-large', detail: '' }, bytes: 900_000_000 },
    verdict: 'fail',
    says: ['900 MB'],
  },
])

testRefused(fileSize, [
  ['no unit', { max: '3000000' }],
  ['a number', { max: 3 }],
  ['binary units', { max: '3 MiB' }],
  ['nothing', {}],
  ['min above max', { min: '4 MB', max: '300 kB' }, 'min is 4 MB and max is 300 kB'],
])
