import { Type } from '@sinclair/typebox'
import { parse } from 'yaml'
import { FieldConstraint } from '../naming/naming-field.ts'
import { KNOWN_FIELDS } from '../naming/naming-problems.ts'
import { TRANSLITERATIONS } from '../naming/transliterate.ts'
import { type AnyRule, isDeliveryRule } from '../rules/contract/delivery-rule.ts'
import type { JsonSchema } from './json-schema.ts'
import { MastersSetting, PrepareSetting } from './prepare-setting.ts'

const closed = { additionalProperties: false }

/** Letters and digits of any script, with single spaces, dots, hyphens and underscores between them. */
const DELIVERABLE = '^[\\p{L}\\p{N}]+(?:[ ._-][\\p{L}\\p{N}]+)*$'
const FIELD = '^[a-z][a-z0-9]*(?:-[a-z0-9]+)*$'

const fields = Object.entries(KNOWN_FIELDS).map(([name, meaning]) => `{${name}}: ${meaning}`)

export const Naming = Type.Object(
  {
    pattern: Type.String({
      minLength: 1,
      maxLength: 1000,
      description: `How the path of a file reads: folders divided by /, fields in braces. ${fields.join('; ')}; and the fields declared beside it.`,
      examples: ['{deliverable}/{family}-{given}_{staff-id}.jpg'],
    }),
    fields: Type.Optional(
      Type.Unsafe<Record<string, FieldConstraint>>({
        type: 'object',
        additionalProperties: FieldConstraint,
        propertyNames: { pattern: FIELD, maxLength: 40 },
        description:
          'What fields may hold, and fields of your own: { digits: 5 }; { one-of: [surgery, front-desk] }; { case: lower, max-length: 20 }; {} for any text.',
        examples: [{ 'staff-id': { digits: 5 } }],
      }),
    ),
    transliterate: Type.Optional(
      Type.Union(
        TRANSLITERATIONS.map((one) => Type.Literal(one)),
        {
          description:
            'Names are written in the letters A to Z; whose portrait a file is, is told in that spelling too. base: without marks, ä is a, ø is o; passport: as in machine-readable passports (ICAO Doc 9303), ä is ae, ø is oe, å is aa. Without it, names are written as they are.',
        },
      ),
    ),
  },
  { ...closed, description: 'How files are named, and which person and deliverable a name means.' },
)

/**
 * JSON Schema (draft-07) of a brand spec with the given rules, each with its words, so that editors complete and
 * explain what they know of them. Plain JSON.
 */
export function specSchema(rules: readonly AnyRule[]): JsonSchema {
  const ids = rules.map(({ id }) => id)
  const perFile = rules.filter((rule) => !isDeliveryRule(rule))
  return plain({
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: 'Brand spec',
    description:
      'What a client asks of delivered portraits: one key per rule, for all deliverables or for one.',
    type: 'object',
    required: ['brand', 'version'],
    ...closed,
    properties: {
      brand: Type.String({ minLength: 1, description: 'The client whose spec this is.' }),
      version: Type.Integer({ minimum: 1, description: 'Version of this spec; raise it with each change.' }),
      extends: Type.String({
        minLength: 1,
        maxLength: 1000,
        title: 'the path of another spec',
        description:
          "Path of a spec, such as a group's house style, from this file's folder; it ends in .yaml or .yml and may lead upwards. All that it says counts here too, but for what is set anew: a key counts whole, so that a rule's options are replaced, not mixed. Deliverables are merged by name, and within each by rule. The roster and the waivers that it names lie beside it.",
        examples: ['../group.yaml'],
      }),
      naming: Naming,
      deliverables: {
        type: 'object',
        description:
          'The ordered outputs, by name. What a deliverable sets replaces the whole general setting of that rule. false leaves out one of the spec that is extended.',
        propertyNames: { pattern: DELIVERABLE, maxLength: 64, not: { enum: ids } },
        additionalProperties: { $ref: '#/definitions/deliverable' },
      },
      ...settingsOf(rules),
      waivers: Type.String({
        minLength: 1,
        maxLength: 1000,
        title: 'the path of a YAML file',
        description:
          "Path of the waivers file, which lists approved exceptions, relative to the spec's folder and inside it.",
        examples: ['waivers.yaml'],
      }),
      masters: MastersSetting,
      prepare: PrepareSetting,
      consent: Type.String({
        minLength: 1,
        maxLength: 1000,
        title: 'a sentence for sitters',
        description:
          'What sitters are told of their pictures; it stands at the foot of the pages that watch shows on location.',
        examples: ['Your portrait is used on the team page and on your badge.'],
      }),
      advisory: {
        type: 'array',
        // The type lets validators find doubles without comparing all pairs.
        items: { title: 'the name of a rule', type: 'string', enum: ids },
        uniqueItems: true,
        description: 'Rules whose failures are warnings and do not fail the run.',
        examples: [ids.slice(-1)],
      },
    },
    definitions: {
      deliverable: {
        title: 'settings of rules',
        type: ['object', 'null', 'boolean'],
        description: 'Settings of this deliverable; nothing where the general ones apply.',
        properties: settingsOf(perFile),
        ...closed,
      },
      ...Object.fromEntries(rules.map((rule) => [rule.id, settingSchema(rule)])),
    },
  })
}

/** The same as the text of a file. */
export function schemaText(rules: readonly AnyRule[]): string {
  return `${JSON.stringify(specSchema(rules), null, 1)}\n`
}

function settingsOf(rules: readonly AnyRule[]): Record<string, JsonSchema> {
  return Object.fromEntries(rules.map(({ id }) => [id, { $ref: `#/definitions/${id}` }]))
}

function settingSchema({ id, text, options }: AnyRule): JsonSchema {
  const { anyOf = [options] }: JsonSchema = options
  const example: unknown = parse(text.example)[id]
  return plain({
    description: [`${text.title}.`, text.measures, anyOf[0] === options ? undefined : options.description]
      .filter(Boolean)
      .join(' '),
    examples: [example],
    anyOf: [...anyOf, { const: false, description: 'Switches the rule off.' }],
  })
}

/** Without the marks that the schema library leaves on its schemas. */
function plain(schema: object): JsonSchema {
  return JSON.parse(JSON.stringify(schema))
}
