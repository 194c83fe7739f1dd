import type { FileReport } from '../../judge/report.ts'
import type { Figure } from '../../rules/contract/outcome.ts'
import { quantity } from '../../text/quantity.ts'

/** A line across the picture at a measured height, or down it at a measured width. */
export interface Line {
  readonly kind: 'crown' | 'eyes' | 'chin' | 'middle'
  readonly label: string
  /** Share of the height (crown, eyes, chin) or of the width (middle), 0..1. */
  readonly at: number
}

/** What the spec asks: a range along the left (crown), right (eyes) or bottom (middle) edge, as shares of that edge. */
export interface AskedRange {
  readonly kind: 'crown' | 'eyes' | 'middle'
  readonly from: number
  readonly to: number
  readonly words: string
}

/** A box in shares of width and height. */
export interface OverlayBox {
  readonly kind: 'face' | 'other-face' | 'crop' | 'glare' | 'intrusion'
  readonly label: string
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export interface Overlay {
  readonly lines: readonly Line[]
  readonly asked: readonly AskedRange[]
  readonly boxes: readonly OverlayBox[]
}

/** What is drawn on a portrait: what was measured, what was asked of it, and what is proposed. */
export function overlayOf(file: FileReport): Overlay {
  return { lines: linesOf(file), asked: askedOf(file), boxes: boxesOf(file) }
}

/** The same in words, for those who can't see the picture: "crown at 4.1 %", "proposed crop". */
export function overlayWords({ lines, asked, boxes }: Overlay): string[] {
  return [
    ...lines.map(({ label, at }) => `${label} at ${quantity(at * 100, ' %')}`),
    ...asked.map(({ words }) => words),
    ...boxes.map(({ label }) => label),
  ]
}

function linesOf({ measurements: { head } }: FileReport): Line[] {
  if (!head) return []
  const line = (kind: Line['kind'], label: string, at: number | null | undefined): Line[] =>
    at === null || at === undefined ? [] : [{ kind, label, at }]
  const { headroomPct, eyeLinePct, offCenterPct, chin } = head
  return [
    ...line('crown', 'crown', headroomPct === null ? null : headroomPct / 100),
    ...line('eyes', 'eye line', eyeLinePct === null ? null : eyeLinePct / 100),
    ...line('chin', 'chin', chin?.y),
    ...line('middle', 'midpoint of the eyes', offCenterPct === null ? null : 0.5 + offCenterPct / 100),
  ]
}

function askedOf({ outcomes }: FileReport): AskedRange[] {
  const range = (rule: string, kind: AskedRange['kind'], shift: number): AskedRange[] => {
    const outcome = outcomes.find((one) => one.rule === rule)
    if (!outcome?.figure) return []
    const words = `${rule} asked for: ${outcome.expected ?? ''}`
    return [{ kind, ...sharesOf(outcome.figure, shift), words }]
  }
  return [
    ...range('headroom', 'crown', 0),
    ...range('eye-line', 'eyes', 0),
    ...range('centering', 'middle', 0.5),
  ]
}

/** Limits in percent as shares of the frame, cut at its edges. */
function sharesOf({ min, max }: Figure, shift: number): { from: number; to: number } {
  const share = (pct: number) => Math.min(1, Math.max(0, shift + pct / 100))
  return { from: min === undefined ? 0 : share(min), to: max === undefined ? 1 : share(max) }
}

function boxesOf({ measurements, outcomes }: FileReport): OverlayBox[] {
  const { background, face, finish, widthPx, heightPx } = measurements
  const crop = outcomes.find((outcome) => outcome.crop)?.crop
  return [
    ...(face?.box ? [{ kind: 'face' as const, label: 'face', ...face.box }] : []),
    ...(face?.others ?? []).map(({ box }) => ({
      kind: 'other-face' as const,
      label: 'another face',
      ...box,
    })),
    ...(background?.intrusions ?? []).map(({ box }) => ({
      kind: 'intrusion' as const,
      label: 'not backdrop',
      ...box,
    })),
    ...(background?.straightening?.regions ?? []).map(({ box }) => ({
      kind: 'intrusion' as const,
      label: 'not picture',
      ...box,
    })),
    ...(background?.holes?.boxes ?? []).map((box) => ({ kind: 'intrusion' as const, label: 'hole', ...box })),
    ...[finish?.lensGlare.left, finish?.lensGlare.right].flatMap((eye) =>
      eye?.box ? [{ kind: 'glare' as const, label: 'glare', ...eye.box }] : [],
    ),
    ...(crop && widthPx && heightPx
      ? [
          {
            kind: 'crop' as const,
            label: 'proposed crop',
            x: crop.leftPx / widthPx,
            y: crop.topPx / heightPx,
            width: crop.widthPx / widthPx,
            height: crop.heightPx / heightPx,
          },
        ]
      : []),
  ]
}
