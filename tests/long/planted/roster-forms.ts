import { BRAND } from './house.ts'
import type { JudgedBy } from './judged.ts'

/** The forms in which spreadsheets and offices save a list of people, which all say the same. */
export const ROSTER_FORMS: readonly (readonly [form: string, made: (csv: string) => JudgedBy])[] = [
  ['semicolons', (csv) => ({ roster: csv.replaceAll(',', ';') })],
  ['tabs', (csv) => ({ roster: csv.replaceAll(',', '\t') })],
  ['a first line that names the sign', (csv) => ({ roster: `sep=;\r\n${csv.replaceAll(',', ';')}` })],
  ['a title above the header', (csv) => ({ roster: `Staff 2027,,,\n\n${csv}` })],
  ['UTF-16', (csv) => ({ roster: Buffer.from(`\ufeff${csv.replaceAll(',', '\t')}`, 'utf16le') })],
  ['numbers kept as text', (csv) => ({ roster: csv.replace(/,(\d{5}),/g, ',="$1",') })],
  [
    'headers in another language',
    (csv) => ({
      roster: csv.replace('family,given,staff-id', 'Nachname,Vorname,Personalnummer'),
      brand: BRAND.replace(
        'roster: staff.csv',
        'roster: { file: staff.csv, columns: { family: Nachname, given: Vorname, staff-id: Personalnummer } }',
      ),
    }),
  ],
]
