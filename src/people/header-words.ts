import { columnName } from './roster-rows.ts'

/**
 * What the columns of staff lists are called in other words and languages, in the form of column names.
 * @source everyday words of the languages, from memory; only ever used to ask whether one is meant
 */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  family: [
    ...['last-name', 'lastname', 'surname', 'family-name'],
    ...['nachname', 'familienname', 'name'],
    ...['nom', 'nom-de-famille', 'apellido', 'apellidos', 'cognome', 'achternaam', 'sobrenome'],
    ...['efternamn', 'efternavn', 'etternavn', 'nazwisko', 'sukunimi'],
  ],
  given: [
    ...['first-name', 'firstname', 'forename', 'given-name'],
    ...['vorname', 'rufname', 'prénom', 'prenom', 'nombre', 'nome', 'voornaam'],
    ...['förnamn', 'fornavn', 'imię', 'imie', 'etunimi'],
  ],
  'staff-id': [
    ...[
      'id',
      'staff-no',
      'staff-number',
      'employee-id',
      'employee-no',
      'employee-number',
      'personnel-number',
    ],
    ...['personalnummer', 'personal-nr', 'mitarbeiternummer', 'matricule', 'matrícula', 'matricola'],
    ...['número-de-empleado', 'personeelsnummer', 'anställningsnummer'],
  ],
}

/** For each field that has no column, the header that most likely means it. */
export function likelyHeaders(headers: readonly string[], fields: readonly string[]): Map<string, string> {
  const likely = new Map<string, string>()
  for (const field of fields) {
    const words = WORDS[field] ?? []
    const header = headers.find((one) => words.includes(columnName(one)))
    if (header !== undefined) likely.set(field, header.trim())
  }
  return likely
}
