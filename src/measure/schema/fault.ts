import { type Static, Type } from '@sinclair/typebox'

/**
 * Why a file could not be read as a picture. Facts only; the sentences live with the rules.
 *
 * - `unreadable`: the operating system refused (permission, vanished, a pipe or socket)
 * - `link`: a link that leads to no file of the delivery; it is not followed
 * - `empty`: zero bytes
 * - `lfs-pointer`: a Git LFS pointer instead of the content
 * - `not-a-picture`: text, an archive, anything that is not an image format we know
 * - `format`: a known image format that can't be decoded, or is not to be (see `format`)
 * - `truncated`: the picture ends before its last row
 * - `corrupt`: the decoder refused or warned
 * - `too-large`: more pixels or bytes than the limits allow
 * - `not-measured`: measuring took more time or memory than the limits allow, or failed
 */
export const FaultKind = Type.Union(
  [
    Type.Literal('unreadable'),
    Type.Literal('link'),
    Type.Literal('empty'),
    Type.Literal('lfs-pointer'),
    Type.Literal('not-a-picture'),
    Type.Literal('format'),
    Type.Literal('truncated'),
    Type.Literal('corrupt'),
    Type.Literal('too-large'),
    Type.Literal('not-measured'),
  ],
  { description: 'Why the file could not be read as a whole picture.' },
)
export type FaultKind = Static<typeof FaultKind>

export const Fault = Type.Object(
  {
    kind: FaultKind,
    detail: Type.String({ description: "The decoder's or system's own words; may be empty." }),
  },
  { additionalProperties: false },
)
export type Fault = Static<typeof Fault>
