import { type Static, Type } from '@sinclair/typebox'
import { NameReading } from '../naming/name-reading.ts'

const closed = { additionalProperties: false }
const Source = Type.Object({ file: Type.String(), text: Type.String() }, closed)
const OptionalSource = Type.Union([Source, Type.Null()])

/** The texts that a run judges by. */
export const Sources = Type.Object(
  {
    spec: Source,
    extended: Type.Array(Source, {
      description: 'The spec that it extends, the one which that extends, and so on.',
    }),
    roster: OptionalSource,
    waivers: OptionalSource,
    gallery: OptionalSource,
  },
  { ...closed, description: 'What the run was judged by: the spec and what goes with it, as texts.' },
)
export type Sources = Static<typeof Sources>

/** Where the files of a part come from, when a workflow's runner knows. */
export const Origin = Type.Object(
  {
    commit: Type.Union([Type.String(), Type.Null()], {
      description: 'The commit that was checked out, hex.',
    }),
    run: Type.Union([Type.String(), Type.Null()], { description: 'The run of a workflow.' }),
  },
  closed,
)
export type Origin = Static<typeof Origin>

/** What the report on a part of a delivery carries so that the parts can be put together. */
export const Part = Type.Object(
  {
    number: Type.Integer({ minimum: 1 }),
    of: Type.Integer({ minimum: 1, maximum: 1000 }),
    total: Type.Integer({ minimum: 0, description: 'Files of the whole delivery.' }),
    listing: Type.String({
      pattern: '^[0-9a-f]{64}$',
      description: 'SHA-256 of the sorted paths of the whole delivery, each ended by a zero byte.',
    }),
    origin: Type.Union([Origin, Type.Null()], {
      description: 'The commit and the run that the part belongs to; null outside of a workflow.',
    }),
    sources: Sources,
    names: Type.Array(NameReading, {
      description: 'What the file names identify, by code point of the paths.',
    }),
  },
  { ...closed, description: 'Set in the report on a part of a delivery.' },
)
export type Part = Static<typeof Part>
