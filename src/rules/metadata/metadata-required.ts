import { Type } from '@sinclair/typebox'
import type { Metadata } from '../../measure/schema/metadata.ts'
import type { FieldId } from '../../measure/schema/metadata-facts.ts'
import { listed } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { once } from '../judging/once.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { unreadableText } from '../judging/unreadable.ts'
import { FIELD_WORDS } from './metadata-fields.ts'
import {
  type FieldAnswer,
  type FieldAsk,
  judgeField,
  questionTo,
  questionToAll,
  textsOf,
} from './required-field.ts'
import { templateProblem } from './wanted-text.ts'

const Text = Type.String({
  minLength: 1,
  description: 'A text; it may contain fields of the naming pattern in braces: "{given} {family}".',
})
const Ask = Type.Union([
  Type.Literal(true, { description: 'Filled in, with any text.' }),
  Text,
  Type.Array(Text, { minItems: 1, uniqueItems: true, description: 'Texts that must all be in it.' }),
  Type.Object({ equals: Text }, { additionalProperties: false, description: 'Exactly this text.' }),
])

const IDS = Object.keys(FIELD_WORDS) as FieldId[]
const Options = Type.Unsafe<Partial<Record<FieldId, FieldAsk>>>(
  Type.Object(
    Object.fromEntries(IDS.map((id) => [id, Type.Optional({ ...Ask, description: descriptionOf(id) })])),
    {
      additionalProperties: false,
      minProperties: 1,
      description: 'Fields of the photo metadata that must be filled in, or contain a text.',
    },
  ),
)

function descriptionOf(id: FieldId): string {
  return `The ${FIELD_WORDS[id].noun}: true if it must be filled in, or the text that it must contain.`
}

export const metadataRequired = defineRule({
  id: 'metadata-required',
  severity: 'label',
  dependsOn: 'export',
  text: {
    title: 'Photo metadata filled in',
    measures:
      'Fields of the photo metadata, read from EXIF, IPTC-IIM and XMP and reconciled as the Metadata Working Group recommends. A text may be part of the field and must match letter for letter; with naming fields in braces, case, accents and hyphens are ignored, since file names often drop them. Places that disagree are reported, and the rule fails where one of them lacks the text.',
    why: 'Without creator and copyright nobody knows whom to ask; without alt text a website excludes people who cannot see the picture; the person shown keeps the picture linked to the sitter when the file is renamed.',
    fix: 'Fill in the fields in the IPTC panel of your editor and keep the metadata on export.',
    example:
      'metadata-required: { creator: true, copyright: Osprey Lane Veterinary Group, person-shown: "{given} {family}", alt-text: true }',
  },
  options: Options,
  needs: ['metadata'],
  saving: (options) => ({
    fillIn: Object.fromEntries(Object.entries(options).map(([id, ask]) => [id, [...textsOf(ask)]])),
  }),
  problem(options) {
    const templates = Object.values(options).flatMap(textsOf)
    return templates.map(templateProblem).find((problem) => problem !== null) ?? null
  },
  judge({ measured, name, personFields }, options) {
    const { metadata } = measured
    if (!metadata) return unmeasured(measured, 'The metadata')
    const meant = personFields ? { fields: { ...name.fields, ...personFields } } : name
    return joined(
      asksOf(options).map(({ id, ask, toAll }) => judgeField(metadata, toAll ?? questionTo(meant, id, ask))),
      metadata,
    )
  },
})

/** In the order in which the fields are told. */
const asksOf = once((options: Partial<Record<FieldId, FieldAsk>>) =>
  IDS.flatMap((id) => {
    const ask = options[id]
    return ask === undefined ? [] : [{ id, ask, toAll: questionToAll(id, ask) }]
  }),
)

function joined(answers: readonly FieldAnswer[], metadata: Metadata): Finding {
  // What is met needs no word where something is not.
  const open = answers.filter(({ verdict }) => verdict !== 'pass')
  if (open.length === 0) return { verdict: 'pass', ...inWords(answers) }
  const empty = open.filter(({ verdict }) => verdict === 'empty')
  const unreadable = empty.length > 0 ? unreadableText(metadata) : null
  const untold =
    unreadable === null ? '' : ` It may be in a part that could not be read (${unreadable}); check by eye.`
  const finding = inWords(open, untold)
  const failed = open.filter(({ verdict }) => verdict === 'fail')
  const missed = [...failed, ...(unreadable === null ? empty : [])]
  return missed.length > 0
    ? { verdict: 'fail', ...finding, ...fixFor(missed) }
    : { verdict: 'unsure', ...finding }
}

function inWords(answers: readonly FieldAnswer[], untold = '') {
  return {
    measured: listed(answers.map(({ measured }) => measured)),
    expected: listed(answers.map(({ asked }) => asked)),
    reason: `${answers.map(({ sentence }) => sentence).join(' ')}${untold}`,
  }
}

function fixFor(missed: readonly FieldAnswer[]): Pick<Finding, 'fix' | 'export'> {
  const fields = missed.map(({ id, asked }) => `${asked} (${FIELD_WORDS[id].place})`)
  return {
    fix: `In the IPTC panel of your editor, fill in ${listed(fields)}, and keep the metadata on export.`,
    export: { from: 'file', fillIn: Object.fromEntries(missed.map(({ id, texts }) => [id, [...texts]])) },
  }
}
