import { Type } from '@sinclair/typebox'
import { defineRule, type Rule } from '../../src/rules/contract/rule.ts'

const closed = { additionalProperties: false }
const text = (example: string) => ({
  title: 'An invented rule',
  measures: 'Nothing.',
  why: 'To read specs with.',
  fix: 'None.',
  example,
})
const judge = () => ({ verdict: 'pass' as const, measured: null, expected: null, reason: 'Invented.' })

const Band = Type.Union([
  Type.Object({ min: Type.Number(), max: Type.Number() }, closed),
  Type.Object({ min: Type.Number() }, closed),
  Type.Object({ max: Type.Number() }, closed),
  Type.Object({ target: Type.Number(), tolerance: Type.Number({ minimum: 0 }) }, closed),
])
const Finish = Type.Union(['matt', 'gloss', 'silk'].map((name) => Type.Literal(name)))

/** Invented rules with each form of options that rules have: the loader must not rely on the real ones. */
export const INVENTED: readonly Rule[] = [
  defineRule({
    id: 'margin',
    severity: 'label',
    dependsOn: 'scene',
    text: text('margin: { min: 6, max: 12 }'),
    options: Band,
    needs: [],
    problem: (band) =>
      'min' in band && 'max' in band && band.min > band.max
        ? `min ${band.min} is over max ${band.max}.`
        : null,
    judge,
  }),
  defineRule({
    id: 'lean',
    severity: 'label',
    dependsOn: 'scene',
    text: text('lean: { max: 4 }'),
    options: Band,
    needs: [],
    judge,
  }),
  defineRule({
    id: 'paper',
    severity: 'label',
    dependsOn: 'scene',
    text: text('paper: matt'),
    options: Type.Union([Finish, Type.Array(Finish, { minItems: 1, uniqueItems: true })]),
    needs: [],
    judge,
  }),
  defineRule({
    id: 'tint',
    severity: 'label',
    dependsOn: 'scene',
    text: text('tint: { color: "#f4f4f2" }'),
    options: Type.Object(
      {
        color: Type.String({ pattern: '^#[0-9a-f]{6}$', description: 'A color such as "#f4f4f2".' }),
        shift: Type.Optional(Type.Integer({ minimum: -5, maximum: 5 })),
      },
      closed,
    ),
    needs: [],
    judge,
  }),
  defineRule({
    id: 'code',
    severity: 'label',
    dependsOn: 'scene',
    text: text('code: "00123"'),
    options: Type.String({ minLength: 1 }),
    needs: [],
    judge,
  }),
  defineRule({
    id: 'sealed',
    severity: 'label',
    dependsOn: 'scene',
    text: text('sealed: true'),
    options: Type.Literal(true),
    always: true,
    needs: [],
    judge,
  }),
]
