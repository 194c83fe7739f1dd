import { type Static, Type } from '@sinclair/typebox'
import type { Spec } from '../brand-spec/spec.ts'
import { FrameReport } from '../frames/frame-report.ts'
import { bestFirst } from '../frames/rank.ts'
import { Verdict } from '../judge/verdict.ts'
import { byCodePoint } from '../text/code-points.ts'
import { Drift } from './drift.ts'

const closed = { additionalProperties: false }
const Count = Type.Integer({ minimum: 0 })

/**
 * Version of the report's form.
 * @choice counted up whenever a key is renamed or removed, or changes its meaning.
 */
const SCHEMA_VERSION = 1

const CardFrame = Type.Object(
  {
    ...FrameReport.properties,
    pickedBy: Type.Array(Type.String(), {
      description: 'Labels of the people on the roster whose pick names this frame.',
    }),
    otherFiles: Type.Array(Type.String(), {
      description: 'Other files of the same frame: its raw file beside a JPEG.',
    }),
  },
  closed,
)
export type CardFrame = Static<typeof CardFrame>

const SitterFrames = Type.Object(
  {
    sitter: Type.Union([Type.String(), Type.Null()], {
      description:
        'Label of the person whom the names tell, or the folder; null for frames of which neither says whose they are.',
    }),
    verdict: Type.Union(Verdict.anyOf, { description: 'That of the best frame.' }),
    usable: Count,
    frames: Type.Array(CardFrame, { description: 'The best first.' }),
  },
  closed,
)
export type SitterFrames = Static<typeof SitterFrames>

/** What `check --frames` has to say of the frames of a card, as plain JSON. */
export const CardReport = Type.Object(
  {
    schemaVersion: Type.Literal(SCHEMA_VERSION, {
      description: 'Version of this form; raised when a key is renamed or removed, or changes its meaning.',
    }),
    tool: Type.Object({ name: Type.String(), version: Type.String() }, closed),
    spec: Type.Object({ file: Type.String(), brand: Type.String(), version: Type.Number() }, closed),
    verdict: Type.Union(Verdict.anyOf, {
      description: '`pass` when every sitter has a usable frame; `fail` when one has none that is or may be.',
    }),
    strict: Type.Boolean({
      description: 'Whether a sitter whose best frame is unsure fails the run.',
    }),
    totals: Type.Object(
      { frames: Count, pass: Count, fail: Count, unsure: Count, sitters: Count, sittersWithout: Count },
      { ...closed, description: '`sittersWithout` counts those without a usable frame.' },
    ),
    left: Type.Object(
      { hidden: Count, sidecars: Count, links: Count, other: Count },
      { ...closed, description: 'What was not checked: files, and links without a picture name.' },
    ),
    sitters: Type.Array(SitterFrames, {
      description: 'By label; frames whose sitter is not known stand last.',
    }),
    drift: Type.Array(
      Type.Object(
        {
          ...Drift.properties,
          time: Type.String({ description: 'The capture time of its first frame, as the camera told it.' }),
        },
        closed,
      ),
      { description: 'What has changed for good, by the capture times of the frames.' },
    ),
  },
  closed,
)
export type CardReport = Static<typeof CardReport>

export interface CardParts extends Pick<CardReport, 'tool' | 'strict' | 'left' | 'drift'> {
  readonly spec: Pick<Spec, 'file' | 'brand' | 'version'>
  readonly frames: readonly { readonly sitter: string | null; readonly frame: CardFrame }[]
}

/** Sums up the frames of a card, sitter by sitter. */
export function cardReport({ tool, spec, strict, left, drift, frames }: CardParts): CardReport {
  const bySitter = new Map<string | null, CardFrame[]>()
  for (const { sitter, frame } of frames) {
    const others = bySitter.get(sitter)
    if (others) others.push(frame)
    else bySitter.set(sitter, [frame])
  }
  const sitters = [...bySitter]
    .toSorted(([a], [b]) => Number(a === null) - Number(b === null) || byCodePoint(a ?? '', b ?? ''))
    .map(([sitter, own]): SitterFrames => {
      const ranked = bestFirst(own)
      return {
        sitter,
        verdict: ranked[0]?.verdict ?? 'unsure',
        usable: own.filter(({ verdict }) => verdict === 'pass').length,
        frames: ranked,
      }
    })
  const having = (verdict: CardReport['verdict']) =>
    frames.filter(({ frame }) => frame.verdict === verdict).length
  const { file, brand, version } = spec
  const verdicts = sitters.map(({ verdict }) => verdict)
  return {
    schemaVersion: SCHEMA_VERSION,
    tool,
    spec: { file, brand, version },
    verdict: (['fail', 'unsure', 'pass'] as const).find((one) => verdicts.includes(one)) ?? 'unsure',
    strict,
    totals: {
      ...{ frames: frames.length, pass: having('pass'), fail: having('fail'), unsure: having('unsure') },
      ...{ sitters: sitters.length, sittersWithout: sitters.filter(({ usable }) => usable === 0).length },
    },
    left,
    sitters,
    drift,
  }
}
