import { basename } from 'node:path'
import type { PrepareSetting } from '../../brand-spec/prepare-setting.ts'
import type { Metadata } from '../../measure/schema/metadata.ts'
import { FIELDS, type FieldId, type PrivateItem } from '../../measure/schema/metadata-facts.ts'
import type { Saving } from '../../rules/contract/export-settings.ts'
import { FIELD_WORDS } from '../../rules/metadata/metadata-fields.ts'
import { meets, wantedTexts } from '../../rules/metadata/wanted-text.ts'
import type { Labels } from '../metadata/labels.ts'

/** Fields that tell of editing, not of the picture: never written. */
const LEFT_OUT: readonly FieldId[] = ['rating', 'label']

/** Fields that are private items too, by the item that forbids them. */
const FORBIDDEN_BY: Readonly<Partial<Record<FieldId, PrivateItem>>> = {
  'person-shown': 'person-shown',
  keywords: 'keywords',
  'capture-time': 'capture-time',
}

/** What is known of a file whose metadata is to be written. */
export interface LabelFacts {
  /** Of the master; null when it has none. */
  readonly metadata: Metadata | null
  /** The master's file. */
  readonly file: string
  readonly person: Readonly<Record<string, string>>
  readonly saving: Saving
  readonly templates: PrepareSetting['metadata']
  /** Whether somebody picked the frame, so that its name must stay to be found. */
  readonly isPicked: boolean
}

/**
 * What a file is to say of itself: by the spec's templates; else what the master says, where that meets the rules; else what the rules ask for.
 * What is forbidden, or says nothing of the picture, stays out.
 */
export function labelsFor(facts: LabelFacts): Labels {
  const { metadata, file, saving, isPicked } = facts
  const forbidden = saving.leaveOut ?? []
  const fields: Partial<Record<FieldId, readonly string[]>> = {}
  for (const field of FIELDS) {
    const item = FORBIDDEN_BY[field]
    if (LEFT_OUT.includes(field) || (item && forbidden.includes(item))) continue
    const values = valuesFor(field, facts)
    if (values.length > 0) fields[field] = values
  }
  const origin = metadata?.origin
  const frameName = origin?.rawFileName ?? origin?.preservedFileName ?? (isPicked ? basename(file) : null)
  return {
    fields,
    frameName: forbidden.includes('original-name') ? null : frameName,
    colorSpace: saving.colorSpace ?? 'sRGB',
    ppi: saving.ppi ?? null,
  }
}

function valuesFor(field: FieldId, { metadata, person, saving, templates }: LabelFacts): readonly string[] {
  const own = templates ? new Map(Object.entries(templates)).get(field) : undefined
  if (own !== undefined) return filled([own].flat(), person)
  const kept = metadata ? FIELD_WORDS[field].values(metadata) : []
  const asked = saving.fillIn?.[field] ?? []
  const isMet = asked.every((template) => {
    const texts = wantedTexts(template, { fields: person })
    return !('missing' in texts) && texts.some((text) => kept.some((value) => meets(value, text, false)))
  })
  return isMet ? kept : filled(asked, person)
}

/** Templates with their fields filled in; left out where the person has no such field. */
function filled(templates: readonly string[], person: Readonly<Record<string, string>>): string[] {
  return templates.flatMap((template) => {
    const texts = wantedTexts(template, { fields: person })
    return 'missing' in texts ? [] : texts.map(({ text }) => text)
  })
}
