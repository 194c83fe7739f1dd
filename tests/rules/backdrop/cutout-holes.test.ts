import { cutoutHoles } from '../../../src/rules/backdrop/cutout-holes.ts'
import { background, face, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const box = { x: 0.475, y: 0.6, width: 0.02, height: 0.01 }
const found = { boxes: [box, { ...box, x: 0.6, width: 0.01 }], areaPct: 0.03 }

testCases(cutoutHoles, [
  { what: 'no hole', options: 'none', verdict: 'pass', found: 'none', asked: 'none' },
  {
    what: 'a hole',
    options: 'none',
    measured: background({ holes: { boxes: [box], areaPct: 0.02 }, lightnessL: 70 }),
    verdict: 'fail',
    found: '1 place',
    says: [
      'The backdrop shows through the sitter in 1 place of 48 x 30 px, 1140 px from the left and 1800 px from the top.',
      'Paint the sitter back',
    ],
  },
  {
    what: 'two holes',
    options: 'none',
    measured: background({ holes: found, lightnessL: 50 }),
    verdict: 'fail',
    found: '2 places',
    says: ['in 2 places, the largest of 48 x 30 px'],
  },
  {
    what: 'two holes before a backdrop that is not quite white',
    options: 'none',
    measured: background({ holes: found, lightnessL: 89.9 }),
    verdict: 'fail',
  },
  {
    what: 'patches before white, which a badge may be too',
    options: 'none',
    measured: background({ holes: found, lightnessL: 90.1 }),
    verdict: 'unsure',
    says: ['as white as the backdrop in 2 places', 'white cloth, prints or badges; check by eye'],
  },
  {
    what: 'no patches before white',
    options: 'none',
    measured: background({ lightnessL: 100 }),
    verdict: 'pass',
    found: 'none',
    asked: 'none',
  },
  {
    what: 'patches before black, which a tie may be too',
    options: 'none',
    measured: background({ holes: found, lightnessL: 14.9 }),
    verdict: 'unsure',
    says: ['as black as the backdrop'],
  },
  {
    what: 'patches before dark gray',
    options: 'none',
    measured: background({ holes: found, lightnessL: 15.1 }),
    verdict: 'fail',
  },
  {
    what: 'before a backdrop that is not plain',
    options: 'none',
    measured: background({ holes: found, confidence: 0.3, doubts: ['backdrop-not-plain'] }),
    verdict: 'unsure',
    says: ['not plain enough'],
  },
  {
    what: 'a sitter who is too small',
    options: 'none',
    measured: background({ holes: null }),
    verdict: 'unsure',
    says: ['too small in the file, or the backdrop too uneven'],
  },
  {
    what: 'no face',
    options: 'none',
    measured: { ...background({ holes: null }), ...face({ count: 0, box: null }) },
    verdict: 'unsure',
    says: ['no face was found'],
  },
  { what: 'not measured', options: 'none', measured: { background: null }, verdict: 'unsure' },
  { what: 'unreadable file', options: 'none', measured: UNREAD, verdict: 'skip' },
])

testRefused(cutoutHoles, [
  ['a number', 2],
  ['another word', 'few'],
])
