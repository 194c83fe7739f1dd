import { bitDepth } from '../../../src/rules/file/bit-depth.ts'
import { testCases, testRefused, UNREAD } from '../judging/cases.ts'

testCases(bitDepth, [
  {
    what: '8 of 8',
    options: 8,
    verdict: 'pass',
    says: ['The file has 8 bits per channel; the spec asks for 8.'],
    found: '8 bit',
  },
  {
    what: '16 where 8 is asked',
    options: 8,
    measured: { bitsPerChannel: 16 },
    verdict: 'fail',
    says: ['Convert the file to 8 bits per channel'],
  },
  {
    what: '8 where 16 is asked',
    options: 16,
    verdict: 'fail',
    says: ['at 16 bits, as TIFF or PNG', 'adds no tones'],
  },
  { what: '16 of 16', options: 16, measured: { bitsPerChannel: 16 }, verdict: 'pass' },
  {
    what: '1 where 8 is asked',
    options: 8,
    measured: { bitsPerChannel: 1 },
    verdict: 'fail',
    says: ['at 8 bits;'],
  },
  { what: '10 where 8 is asked', options: 8, measured: { bitsPerChannel: 10 }, verdict: 'fail' },
  { what: 'unreadable file', options: 8, measured: UNREAD, verdict: 'skip' },
  { what: 'not measured', options: 8, measured: { bitsPerChannel: null }, verdict: 'unsure' },
])

testRefused(bitDepth, [
  ['another number', 12],
  ['text', '8'],
])
