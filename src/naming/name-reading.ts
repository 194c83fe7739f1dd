import { type Static, Type } from '@sinclair/typebox'

const closed = { additionalProperties: false }
const folder = {
  folder: Type.Optional(
    Type.String({
      description: "The folder whose name is wrong, by its path; absent where it is the file's own.",
    }),
  ),
}

/**
 * One thing wrong with a file's path. Facts only; the sentences live in the rule `file-name`.
 *
 * - `no-match`: the reading stopped at character `at` of `path` (from 0, UTF-16 units): the pattern has the
 *   fixed text `wanted` next, the path has `found` there
 * - `extension`: the pattern ends in `wanted` (".jpg"), the name in `found` (".png"; empty when it has none)
 * - `copy`: the name is that of a copy, by the `mark` that systems add before the extension (" copy 2", " (1)")
 * - `letter-case`: a fixed text of the pattern or a deliverable's folder, right but for capital and small letters
 * - `field`: a field's value misses its constraint; `wanted` follows "must be": "5 digits", "one of a, b"
 * - `deliverable`: the value is no deliverable of the spec
 * - `not-nfc`: not in Unicode Normalization Form C; `composed` is the path, or the folder's, that is
 * - `not-utf8`: the bytes of the name are no text; U+FFFD stands in `path` for what could not be read
 * - `unseen`: the name has a character that shows nothing, or turns the reading direction; `character` is its code point
 * - `windows`: Windows refuses a folder or file of that name; `why` follows `part`: "ends with a period"
 * - `collision`: two files would overwrite each other where capital and small letters, or composed and
 *   decomposed ones, are the same
 */
export const NameProblem = Type.Union([
  Type.Object(
    {
      kind: Type.Literal('no-match'),
      at: Type.Integer(),
      wanted: Type.String(),
      found: Type.String(),
      ...folder,
    },
    closed,
  ),
  Type.Object({ kind: Type.Literal('extension'), wanted: Type.String(), found: Type.String() }, closed),
  Type.Object({ kind: Type.Literal('copy'), mark: Type.String() }, closed),
  Type.Object(
    { kind: Type.Literal('letter-case'), wanted: Type.String(), found: Type.String(), ...folder },
    closed,
  ),
  Type.Object(
    {
      kind: Type.Literal('field'),
      field: Type.String(),
      wanted: Type.String(),
      found: Type.String(),
      ...folder,
    },
    closed,
  ),
  Type.Object(
    {
      kind: Type.Literal('deliverable'),
      found: Type.String(),
      nearest: Type.Union([Type.String(), Type.Null()]),
      ...folder,
    },
    closed,
  ),
  Type.Object({ kind: Type.Literal('not-nfc'), composed: Type.String(), ...folder }, closed),
  Type.Object({ kind: Type.Literal('not-utf8') }, closed),
  Type.Object({ kind: Type.Literal('unseen'), character: Type.String(), ...folder }, closed),
  Type.Object({ kind: Type.Literal('windows'), part: Type.String(), why: Type.String(), ...folder }, closed),
  Type.Object(
    {
      kind: Type.Literal('collision'),
      with: Type.String(),
      by: Type.Union([Type.Literal('case'), Type.Literal('normalization')]),
    },
    closed,
  ),
])
export type NameProblem = Static<typeof NameProblem>

/** What a file's path says of it. */
export const NameReading = Type.Object(
  {
    path: Type.String({ description: 'Relative to the delivery root, with /.' }),
    pattern: Type.Union([Type.String(), Type.Null()], {
      description: "The spec's naming pattern; null when it has none.",
    }),
    fields: Type.Record(Type.String(), Type.String(), {
      description: 'Values of the named fields, as far as they could be read; in NFC.',
    }),
    otherReadings: Type.Optional(
      Type.Array(Type.Record(Type.String(), Type.String()), {
        description:
          'Other splits of the name that fit as well ("Smith-Jones-Anna" in {family}-{given}), the likeliest first; absent when there is one reading only.',
      }),
    ),
    deliverable: Type.Union([Type.String(), Type.Null()], {
      description:
        'The deliverable that the file belongs to, or that a misspelled name of one most likely means; null when its path does not tell.',
    }),
    problems: Type.Array(NameProblem),
  },
  closed,
)
export type NameReading = Static<typeof NameReading>
