import { enlarged } from '../../../src/rules/finish/enlarged.ts'
import { finish, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const sure = { confidence: 1, doubts: [] }

testCases(enlarged, [
  { what: 'no traces', options: 'none', verdict: 'pass', found: 'no traces', asked: 'not enlarged' },
  {
    what: 'traces of an enlargement',
    options: 'none',
    measured: finish({ enlargement: { found: true, ...sure } }),
    verdict: 'fail',
    found: 'enlarged',
    says: ['The picture was enlarged to 2400 x 3000 px', 'Export the master again at its native size'],
  },
  {
    what: 'a picture too small for traces',
    options: 'none',
    measured: finish({
      enlargement: { found: null, confidence: 0, doubts: ['picture-too-small-for-traces'] },
    }),
    verdict: 'unsure',
    says: ['the picture is too small to look for traces of resizing'],
  },
  { what: 'not looked for', options: 'none', measured: finish({ enlargement: null }), verdict: 'unsure' },
  { what: 'not measured', options: 'none', measured: { finish: null }, verdict: 'unsure' },
  { what: 'unreadable file', options: 'none', measured: UNREAD, verdict: 'skip' },
])

testRefused(enlarged, [
  ['a factor', { max: 1.25 }],
  ['another word', 'never'],
])
