import type { Spec } from '../../brand-spec/spec.ts'
import type { FramingAsk } from '../../framing/ask.ts'
import { askTogether, framingOf } from '../../judge/framing-ask.ts'
import { planFile, runs } from '../../judge/plan.ts'
import { DECODABLE, type Decodable } from '../../measure/schema/formats.ts'
import type { NamingPattern } from '../../naming/naming.ts'
import type { Saving } from '../../rules/contract/export-settings.ts'
import { RULES } from '../../rules/index.ts'
import { FORMATS, formatOfExtension, isFormat } from '../../rules/judging/format-names.ts'

/** Chroma subsampling that the picture library writes, the one that keeps most first. */
const WRITTEN = ['4:4:4', '4:2:0'] as const
export type Subsampling = (typeof WRITTEN)[number]

/** What the rules of a spec ask of the files of one deliverable. */
export interface Order {
  /** Null where the spec names no deliverables. */
  readonly deliverable: string | null
  readonly framing: FramingAsk
  /** The same without what is only advised, which gives way where both can't be met. */
  readonly bindingFraming: FramingAsk
  readonly saving: Saving
  readonly format: Decodable
  /** Chroma subsampling; null where none is allowed that the picture library writes. */
  readonly subsampling: Subsampling | null
  /** Null where the names end otherwise than in any format that is allowed. */
  readonly extension: string | null
}

export function orderOf(deliverable: string | null, spec: Spec): Order {
  const plan = planFile({ name: { deliverable }, readable: true }, spec, RULES).filter(runs)
  const framing = plan.flatMap(framingOf)
  const lists = plan.flatMap(({ rule, application }) => rule.formats?.(application.options) ?? [])
  const allowed = lists.length === 0 ? [...DECODABLE] : DECODABLE.filter((one) => lists.includes(one))
  const saving: Saving = Object.assign(
    {},
    ...plan.map(({ rule, application }) => rule.saving?.(application.options) ?? {}),
  )
  return {
    deliverable,
    framing: askTogether(framing),
    bindingFraming: askTogether(framing.filter(({ advisory }) => !advisory)),
    saving,
    subsampling: WRITTEN.find((one) => saving.subsampling?.includes(one) ?? true) ?? null,
    ...formatFor(allowed, spec.naming),
  }
}

/** Whether any file is to be framed, for which the sitter must be found. */
export function asksForCrops(spec: Spec): boolean {
  const names = Object.keys(spec.deliverables)
  return (names.length === 0 ? [null] : names).some((name) => isFramed(orderOf(name, spec)))
}

/** Without rules on the framing there is nothing to crop for; a tilt alone asks for none. */
export function isFramed({ framing }: Order): boolean {
  return Object.keys(framing).some((rule) => rule !== 'tilt')
}

/** The format that the names ask for; where they leave it open, the first that is allowed. */
function formatFor(
  allowed: readonly Decodable[],
  naming: NamingPattern | null,
): Pick<Order, 'format' | 'extension'> {
  const [first = 'jpeg'] = allowed
  const last = naming?.segments.at(-1)?.at(-1)
  const fixed = last && 'text' in last ? /\.([A-Za-z0-9]{1,8})$/.exec(last.text)?.[1] : undefined
  if (fixed === undefined) return { format: first, extension: FORMATS[first].extensions[0] }
  const named = formatOfExtension(fixed)
  const fits = isFormat(named) && allowed.includes(named)
  return { format: fits ? named : first, extension: fits ? fixed : null }
}
