import type { Jpeg } from '../../../src/measure/schema/measurements.ts'
import { compression } from '../../../src/rules/file/compression.ts'
import { GOOD, testCases, testRefused, UNREAD } from '../judging/cases.ts'

const jpeg = (changes: Partial<Jpeg>) => ({ jpeg: { ...(GOOD.jpeg as Jpeg), ...changes } })
const nonStandard = { quality: null, tables: 'non-standard' } as const

testCases(compression, [
  {
    what: 'all parts met',
    options: { quality: { min: 90 }, subsampling: '4:4:4', progressive: false },
    verdict: 'pass',
    says: ['The JPEG quality is 92; the spec asks for at least 90.', 'is 4:4:4', 'is sequential (baseline)'],
    found: 'quality 92, subsampling 4:4:4 and sequential (baseline)',
  },
  {
    what: 'quality at its least',
    options: { quality: { min: 90 } },
    measured: jpeg({ quality: 90 }),
    verdict: 'pass',
  },
  {
    what: 'quality under it',
    options: { quality: { min: 90 } },
    measured: jpeg({ quality: 89 }),
    verdict: 'fail',
    says: ['quality is 89', 'Export again from the original with quality at least 90', 'restores no detail'],
  },
  {
    what: 'quality at its most',
    options: { quality: { max: 95 } },
    measured: jpeg({ quality: 95 }),
    verdict: 'pass',
  },
  {
    what: 'quality over it',
    options: { quality: { min: 80, max: 95 } },
    measured: jpeg({ quality: 96 }),
    verdict: 'fail',
    says: ['80 to 95'],
  },
  {
    what: 'tables that are not Annex K: the quality is not guessed',
    options: { quality: { min: 90 } },
    measured: jpeg(nonStandard),
    verdict: 'unsure',
    says: ['not the standard ones (ITU-T T.81 Annex K)', 'at least 90'],
    found: 'quality unknown',
  },
  {
    what: 'non-standard tables do not matter where quality is not asked',
    options: { subsampling: '4:4:4' },
    measured: jpeg(nonStandard),
    verdict: 'pass',
  },
  {
    what: 'unknown quality and a missed part is a fail',
    options: { quality: { min: 90 }, subsampling: '4:4:4' },
    measured: jpeg({ ...nonStandard, subsampling: '4:2:0' }),
    verdict: 'fail',
    says: [
      'The JPEG quality is unknown',
      'The chroma subsampling is 4:2:0; the spec asks for 4:4:4.',
      'with subsampling 4:4:4;',
    ],
  },
  {
    what: 'unknown quality and a met part is unsure',
    options: { quality: { min: 90 }, subsampling: '4:4:4' },
    measured: jpeg(nonStandard),
    verdict: 'unsure',
  },
  {
    what: 'subsampling of a list',
    options: { subsampling: ['4:4:4', '4:2:2'] },
    measured: jpeg({ subsampling: '4:2:2' }),
    verdict: 'pass',
  },
  {
    what: 'subsampling not of the list',
    options: { subsampling: ['4:4:4', '4:2:2'] },
    measured: jpeg({ subsampling: '4:2:0' }),
    verdict: 'fail',
    says: ['asks for 4:4:4 or 4:2:2'],
  },
  {
    what: 'an unusual subsampling',
    options: { subsampling: '4:2:0' },
    measured: jpeg({ subsampling: 'other' }),
    verdict: 'fail',
    says: ['is unusual'],
  },
  {
    what: 'one component loses no chroma',
    options: { subsampling: '4:4:4' },
    measured: jpeg({ subsampling: 'none' }),
    verdict: 'pass',
    says: ['no chroma to subsample'],
  },
  {
    what: 'progressive as asked',
    options: { progressive: true },
    measured: jpeg({ progressive: true }),
    verdict: 'pass',
  },
  {
    what: 'progressive where sequential is asked',
    options: { progressive: false },
    measured: jpeg({ progressive: true }),
    verdict: 'fail',
    says: [
      'The JPEG is progressive; the spec asks for sequential (baseline).',
      'Convert this file to sequential (baseline) without loss',
    ],
  },
  {
    what: 'what is met is not told beside what is missed',
    options: { quality: { min: 90 }, subsampling: '4:4:4', progressive: false },
    measured: jpeg({ progressive: true }),
    verdict: 'fail',
    found: 'progressive',
    asked: 'sequential (baseline)',
  },
  { what: 'sequential where progressive is asked', options: { progressive: true }, verdict: 'fail' },
  {
    what: 'another format',
    options: { quality: { min: 90 } },
    measured: { jpeg: null, format: 'png' },
    verdict: 'skip',
    says: ['This rule applies to JPEG only; the file is PNG.'],
  },
  {
    what: 'a JPEG not measured',
    options: { quality: { min: 90 } },
    measured: { jpeg: null },
    verdict: 'unsure',
  },
  {
    what: 'an unknown format',
    options: { quality: { min: 90 } },
    measured: { jpeg: null, format: null },
    verdict: 'unsure',
  },
  { what: 'unreadable file', options: { quality: { min: 90 } }, measured: UNREAD, verdict: 'skip' },
])

testRefused(compression, [
  ['nothing', {}],
  ['quality over 100', { quality: { min: 101 } }],
  ['an unknown subsampling', { subsampling: '4:2:1' }],
  ['min above max', { quality: { min: 95, max: 80 } }, 'min is 95 and max is 80'],
])
