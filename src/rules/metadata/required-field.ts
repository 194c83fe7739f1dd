import type { Metadata } from '../../measure/schema/metadata.ts'
import type { FieldId } from '../../measure/schema/metadata-facts.ts'
import { listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import { FIELD_WORDS } from './metadata-fields.ts'
import { meets, type NameFields, type WantedText, wantedTexts } from './wanted-text.ts'

/** What the spec asks of a field: to be filled in, to hold a text or several, or to be a text. */
export type FieldAsk = true | string | readonly string[] | { readonly equals: string }

/** How a field stands: as asked, otherwise, empty, or not to be told. */
export interface FieldAnswer {
  readonly id: FieldId
  readonly verdict: 'pass' | 'fail' | 'empty' | 'unsure'
  readonly measured: string
  readonly asked: string
  readonly sentence: string
  /** The texts that it must contain, as far as the file's name gives them; none when any will do. */
  readonly texts: readonly string[]
}

export function textsOf(ask: FieldAsk): readonly string[] {
  if (ask === true) return []
  if (typeof ask === 'string') return [ask]
  return 'equals' in ask ? [ask.equals] : ask
}

/** What is asked of a field of one file. */
interface FieldQuestion extends Pick<FieldAnswer, 'id' | 'asked' | 'texts'> {
  readonly askedFor: string
  readonly wanted: readonly Wanted[]
  /** Whether the field must be the text, instead of holding it. */
  readonly whole: boolean
}

/** What is asked of a field of any file; null where it depends on the file's name. */
export function questionToAll(id: FieldId, ask: FieldAsk): FieldQuestion | null {
  return textsOf(ask).some((text) => text.includes('{')) ? null : questionTo({ fields: {} }, id, ask)
}

export function questionTo(name: NameFields, id: FieldId, ask: FieldAsk): FieldQuestion {
  const { noun, article } = FIELD_WORDS[id]
  const wanted = textsOf(ask).map((template) => wantedTexts(template, name))
  const whole = typeof ask === 'object' && 'equals' in ask
  const asked = askedText(noun, wanted, whole)
  const some = article === null ? 'some' : 'one'
  const askedFor = ask === true ? some : article === null ? asked : `${article} ${asked}`
  const texts = wanted.flatMap((one) => ('missing' in one ? [] : (one[0]?.text ?? [])))
  return { id, asked, askedFor, wanted, whole, texts }
}

export function judgeField(metadata: Metadata, question: FieldQuestion): FieldAnswer {
  const { id, asked, askedFor, wanted, whole, texts } = question
  const { noun, article, values } = FIELD_WORDS[id]
  const is = article === null ? 'are' : 'is'
  const found = values(metadata)
  if (found.length === 0)
    return {
      id,
      texts,
      verdict: 'empty',
      measured: `no ${noun}`,
      asked,
      sentence: `The metadata has no ${noun}.`,
    }

  const shown = listed(found.map(quoted))
  const measured = `${noun} ${shown}`
  const untold = wanted.flatMap((one) => ('missing' in one ? [`{${one.missing}}`] : []))
  if (untold.length > 0)
    return {
      id,
      texts,
      verdict: 'unsure',
      measured,
      asked,
      sentence: `The ${noun} ${is} ${shown}; the spec asks for ${askedFor}, but the file name does not give ${listed(untold)}; check by eye.`,
    }
  // Where places differ, some programs show the one, some the other.
  const conflict = metadata.conflicts.find(({ field }) => field === id)
  const isMet =
    holdsAll(found, wanted, whole) &&
    (conflict === undefined || conflict.values.every(({ values }) => holdsAll(values, wanted, whole)))
  return {
    id,
    texts,
    measured,
    asked,
    verdict: isMet ? 'pass' : 'fail',
    sentence: `The ${noun} ${is} ${shown}; the spec asks for ${askedFor}.${conflict ? differing(conflict) : ''}`,
  }
}

type Wanted = ReturnType<typeof wantedTexts>

function askedText(noun: string, wanted: readonly Wanted[], whole: boolean): string {
  if (wanted.length === 0) return noun
  const texts = wanted.map((one) => ('missing' in one ? one.template : (one[0]?.text ?? '')))
  return `${noun} ${whole ? '' : 'with '}${listed(texts.map(quoted))}`
}

function holdsAll(values: readonly string[], wanted: readonly Wanted[], whole: boolean): boolean {
  return wanted.every((readings) => {
    const texts: readonly WantedText[] = 'missing' in readings ? [] : readings
    return texts.some((text) => values.some((value) => meets(value, text, whole)))
  })
}

function differing({ values: all }: Metadata['conflicts'][number]): string {
  const places = all.map(({ where, values }) => `${where} says ${listed(values.map(quoted))}`)
  return ` Not all places agree: ${listed(places)}.`
}
