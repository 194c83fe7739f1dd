import { type Static, Type } from '@sinclair/typebox'

const File = Type.String({
  minLength: 1,
  maxLength: 1000,
  title: 'the path of a CSV file',
  description: "Path of the roster from the spec's own folder, which it must not leave.",
})

/** How the list of people in a sealed delivery calls them. */
const HandOver = Type.Union([Type.Literal('names'), Type.Literal('numbers'), Type.Literal('nobody')], {
  title: 'names, numbers or nobody',
  description:
    'Whom `seal` lists beside the portraits: everybody by all fields of the naming pattern (names, the default), by those made of digits only (numbers), or nobody. File names stay as they are.',
})
export type HandOver = Static<typeof HandOver>

/** How a spec names its roster: the file alone, or with the headers of its columns. */
export const RosterSetting = Type.Union(
  [
    File,
    Type.Object(
      {
        file: File,
        columns: Type.Optional(
          Type.Record(Type.String(), Type.String({ minLength: 1, maxLength: 200 }), {
            description:
              'The header of the column for each field, where it is another word: { family: Nachname, given: Vorname }.',
          }),
        ),
        'hand-over': Type.Optional(HandOver),
      },
      { additionalProperties: false, title: '{ file, columns, hand-over }' },
    ),
  ],
  {
    title: 'the path of a CSV file, or { file, columns, hand-over }',
    description:
      'The list of people. Runs also when the roster is named on the command line; the columns then hold for that file.',
  },
)
export type RosterSetting = Static<typeof RosterSetting>

/** Headers of columns by field, as a spec gives them. */
export type ColumnHeaders = Readonly<Record<string, string>>

/** What a spec's valid setting says; no file where the spec names none. */
export function rosterSetting(setting: unknown): {
  file: string | undefined
  columns: ColumnHeaders
  handOver: HandOver
} {
  const named = setting as RosterSetting | undefined
  if (named === undefined || typeof named === 'string') return { file: named, columns: {}, handOver: 'names' }
  return { file: named.file, columns: named.columns ?? {}, handOver: named['hand-over'] ?? 'names' }
}
