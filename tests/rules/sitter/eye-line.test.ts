import { eyeLine } from '../../../src/rules/sitter/eye-line.ts'
import { face, head, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const band = { min: 33, max: 42 }

testCases(eyeLine, [
  {
    what: 'inside',
    options: band,
    measured: head({ eyeLinePct: 37 }),
    verdict: 'pass',
    says: ['The eye line is 37 % of the frame height below the top edge; the spec asks for 33 to 42 %.'],
  },
  {
    what: 'at the upper end of the frame',
    options: band,
    measured: head({ eyeLinePct: 33 }),
    verdict: 'pass',
  },
  {
    // 0.5 % of 3000 px is 15 px.
    what: 'too high in the frame',
    options: band,
    measured: head({ eyeLinePct: 32.5 }),
    verdict: 'fail',
    says: ['32.5 %', 'too high in the frame', 'move the crop up by 15 px'],
  },
  { what: 'at the lower end', options: band, measured: head({ eyeLinePct: 42 }), verdict: 'pass' },
  {
    what: 'a hair too low never reads as 42',
    options: band,
    measured: head({ eyeLinePct: 42.0004 }),
    verdict: 'fail',
    says: ['42.0004 %', 'too low in the frame', 'move the crop down by 1 px'],
  },
  {
    what: 'a lost crown does not matter',
    options: band,
    measured: head({ eyeLinePct: 37, confidence: 0.2, doubts: ['crown-merges-with-backdrop'] }),
    verdict: 'pass',
  },
  {
    what: 'eyes not sure',
    options: band,
    measured: face({ confidence: 0.4, doubts: ['eyes-implausible'] }),
    verdict: 'unsure',
    says: ['the eyes found do not fit'],
  },
  { what: 'no eyes', options: band, measured: head({ eyeLinePct: null }), verdict: 'unsure' },
  { what: 'unreadable file', options: band, measured: UNREAD, verdict: 'skip' },
  { what: 'head not measured', options: band, measured: { head: null }, verdict: 'unsure' },
  { what: 'face not measured', options: band, measured: { face: null }, verdict: 'unsure' },
  {
    // ANSI/NIST-ITL 1-2011 (NIST SP 500-290), Annex E.4.3.1: the eyes' horizontal line about 55 % of the height up
    // from the bottom, so 45 % down from the top.
    what: 'a head-and-shoulders layout of ANSI/NIST Annex E',
    options: { target: 45, tolerance: 1 },
    measured: head({ eyeLinePct: 100 - 55 }),
    verdict: 'pass',
  },
  {
    what: 'that layout misses a band for closer crops',
    options: band,
    measured: head({ eyeLinePct: 100 - 55 }),
    verdict: 'fail',
  },
])

testRefused(eyeLine, [['min above max', { min: 42, max: 33 }, 'min is 42 and max is 33']])
