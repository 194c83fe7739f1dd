import { type Static, Type } from '@sinclair/typebox'

const File = Type.String({
  minLength: 1,
  maxLength: 1000,
  title: 'the path of a CSV file',
  description: "Path of the roster from the spec's own folder, which it must not leave.",
})

/** How a spec names its roster: the file alone, or with the headers of its columns. */
export const RosterSetting = Type.Union(
  [
    File,
    Type.Object(
      {
        file: File,
        columns: Type.Record(Type.String(), Type.String({ minLength: 1, maxLength: 200 }), {
          description:
            'The header of the column for each field, where it is another word: { family: Nachname, given: Vorname }.',
        }),
      },
      { additionalProperties: false, title: '{ file, columns }' },
    ),
  ],
  {
    title: 'the path of a CSV file, or { file, columns }',
    description:
      'The list of people. Runs also when the roster is named on the command line; the columns then hold for that file.',
  },
)
export type RosterSetting = Static<typeof RosterSetting>

/** Headers of columns by field, as a spec gives them. */
export type ColumnHeaders = Readonly<Record<string, string>>

/** The file and the headers of a spec's valid setting; no file where the spec names none. */
export function rosterSetting(setting: unknown): { file: string | undefined; columns: ColumnHeaders } {
  const named = setting as RosterSetting | undefined
  if (named === undefined || typeof named === 'string') return { file: named, columns: {} }
  return named
}
