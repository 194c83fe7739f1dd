import type { NameProblem } from '../../../src/naming/name-reading.ts'
import { fileName } from '../../../src/rules/file/file-name.ts'
import { GOOD_NAME, testCases, testRefused } from '../judging/cases.ts'

const named = (...problems: NameProblem[]) => ({ problems })

testCases(fileName, [
  {
    what: 'as agreed',
    options: {},
    verdict: 'pass',
    says: [`The name "${GOOD_NAME.path}" is right.`],
    found: GOOD_NAME.path,
    asked: GOOD_NAME.pattern,
  },
  {
    // "print/Abara" is 11 characters, so the hyphen wanted is the 12th.
    what: 'not after the pattern',
    options: {},
    name: {
      path: 'print/Abara_Nkem_00123.jpg',
      ...named({ kind: 'no-match', at: 11, wanted: '-', found: '_' }),
    },
    verdict: 'fail',
    says: [
      'does not fit the pattern "{deliverable}/{family}-{given}_{staff-id}.jpg"',
      'at character 12 it should have "-", but it has "_".',
      'Rename the file to match the pattern',
    ],
  },
  {
    what: 'places count characters, not code units',
    options: {},
    name: { path: '😀😀x', ...named({ kind: 'no-match', at: 4, wanted: '-', found: 'x' }) },
    verdict: 'fail',
    says: ['at character 3 '],
  },
  {
    what: 'the name ends too early',
    options: {},
    name: { path: 'print', ...named({ kind: 'no-match', at: 5, wanted: '/', found: '' }) },
    verdict: 'fail',
    says: ['at character 6 it should have "/", but it ends.'],
  },
  {
    what: 'the name goes on',
    options: {},
    name: named({ kind: 'no-match', at: 3, wanted: '', found: ' copy' }),
    verdict: 'fail',
    says: ['it should end, but it has " copy".'],
  },
  {
    what: 'a field',
    options: {},
    name: named({ kind: 'field', field: 'staff-id', wanted: '5 digits', found: '0123' }),
    verdict: 'fail',
    says: [
      'The field staff-id of the name must be 5 digits; found "0123".',
      'Correct staff-id in the file name.',
    ],
  },
  {
    what: 'an extension',
    options: {},
    name: named({ kind: 'extension', wanted: '.jpg', found: '.png' }),
    verdict: 'fail',
    says: ['The name ends in ".png"; it should end in ".jpg".', 'Rename it to end in ".jpg" if the content'],
  },
  {
    what: 'a name that is known exactly',
    options: {},
    name: named({ kind: 'extension', wanted: '.jpg', found: '.JPEG' }, { kind: 'copy', mark: ' copy' }),
    rename: { from: GOOD_NAME.path, to: 'print/Abara-Nkem_00123.jpg' },
    verdict: 'fail',
    says: [
      'The name ends in " copy", as the names of copies do.',
      'Rename it to "print/Abara-Nkem_00123.jpg".',
    ],
  },
  {
    what: 'a copy of what is there',
    options: {},
    name: named({ kind: 'copy', mark: ' (1)' }),
    rename: { from: GOOD_NAME.path, sameAs: 'print/Abara-Nkem_00123.jpg', by: 'bytes' },
    verdict: 'fail',
    says: ['It is identical to "print/Abara-Nkem_00123.jpg": delete it.'],
  },
  {
    what: 'a copy of a picture saved again',
    options: {},
    name: named({ kind: 'copy', mark: ' (1)' }),
    rename: { from: GOOD_NAME.path, sameAs: 'print/Abara-Nkem_00123.jpg', by: 'picture' },
    verdict: 'fail',
    says: ['It shows the same picture as "print/Abara-Nkem_00123.jpg": delete it.'],
  },
  {
    what: 'a name that is taken',
    options: {},
    name: named({ kind: 'copy', mark: ' (1)' }),
    rename: { from: GOOD_NAME.path, refused: 'clash', wanted: 'a.jpg', others: ['b.jpg', 'c.jpg'] },
    verdict: 'fail',
    says: ['Its name should be "a.jpg", which "b.jpg" and "c.jpg" claim too and are other pictures'],
  },
  {
    what: 'another format than the name asks for',
    options: {},
    name: named({ kind: 'extension', wanted: '.jpg', found: '.png' }),
    rename: { from: GOOD_NAME.path, refused: 'format', wanted: 'print/Abara-Nkem_00123.jpg' },
    verdict: 'fail',
    says: ['Export it again as JPEG, under the name "print/Abara-Nkem_00123.jpg".'],
  },
  {
    what: 'no extension',
    options: {},
    name: named({ kind: 'extension', wanted: '.jpg', found: '' }),
    verdict: 'fail',
    says: ['The name has no extension; it should end in ".jpg".'],
  },
  {
    what: 'capital letters',
    options: {},
    name: named({ kind: 'letter-case', wanted: 'print', found: 'Print' }),
    verdict: 'fail',
    says: ['"Print" in the name should be "print": upper and lower case matter.', 'Rename it to "print".'],
  },
  {
    what: 'an unknown deliverable',
    options: {},
    name: named({ kind: 'deliverable', found: 'pirnt', nearest: 'print' }),
    verdict: 'fail',
    says: ['"pirnt" is not a deliverable of the spec.', 'did you mean "print"?'],
  },
  {
    what: 'an unknown deliverable like none',
    options: {},
    name: named({ kind: 'deliverable', found: 'xyz', nearest: null }),
    verdict: 'fail',
    says: ['Use the name of one of its deliverables.'],
  },
  {
    // Unicode UAX #15: "Zoë" is 5A 6F EB in NFC and 5A 6F 65 308 in NFD.
    what: 'NFD',
    options: {},
    name: { path: 'Zoe\u0308.jpg', ...named({ kind: 'not-nfc', composed: 'Zo\u00eb.jpg' }) },
    verdict: 'fail',
    says: ['not in Unicode NFC', 'Rename the file to "Zo\u00eb.jpg" in NFC'],
  },
  {
    what: 'bytes that are no text, even where names need not be portable',
    options: { portable: false },
    name: named({ kind: 'not-utf8' }),
    verdict: 'fail',
    says: ['not stored as UTF-8'],
  },
  {
    // Microsoft, "Naming Files, Paths, and Namespaces": CON is a reserved name.
    what: 'a name that Windows refuses',
    options: { portable: true },
    name: named({ kind: 'windows', part: 'CON.jpg', why: 'is a reserved name' }),
    verdict: 'fail',
    says: ['Windows refuses the name: "CON.jpg" is a reserved name.', 'Rename "CON.jpg"'],
  },
  {
    what: 'a character that shows nothing',
    options: {},
    name: named({ kind: 'unseen', character: 'U+200B' }),
    verdict: 'fail',
    says: ["a character that can't be seen (U+200B)", 'retype the name'],
  },
  {
    what: 'twins by case',
    options: {},
    name: named({ kind: 'collision', with: 'print/abara.jpg', by: 'case' }),
    verdict: 'fail',
    says: ['differs from "print/abara.jpg" only in upper and lower case', 'overwrites the other'],
  },
  {
    what: 'twins by Unicode form',
    options: {},
    name: named({ kind: 'collision', with: 'Zoe\u0308.jpg', by: 'normalization' }),
    verdict: 'fail',
    says: ['only in how accents are stored'],
  },
  {
    what: 'portable names not asked for',
    options: { portable: false },
    name: named(
      { kind: 'windows', part: 'CON', why: 'is a reserved name' },
      { kind: 'not-nfc', composed: 'x' },
      { kind: 'unseen', character: 'U+200B' },
      { kind: 'collision', with: 'x', by: 'case' },
    ),
    verdict: 'pass',
  },
  {
    what: 'each problem has its sentence, each fix stands once',
    options: {},
    name: named(
      { kind: 'field', field: 'staff-id', wanted: '5 digits', found: '' },
      { kind: 'letter-case', wanted: 'print', found: 'Print' },
    ),
    verdict: 'fail',
    says: ['must be 5 digits; found "". "Print" in the name'],
  },
  {
    what: 'no pattern in the spec',
    options: {},
    name: { pattern: null },
    verdict: 'pass',
    asked: 'a name that works on every system',
  },
  {
    what: 'nothing asked',
    options: { portable: false },
    name: { pattern: null },
    verdict: 'pass',
    asked: 'any name',
  },
])

testRefused(fileName, [['an unknown key', { portability: true }]])
