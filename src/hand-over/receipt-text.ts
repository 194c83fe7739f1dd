import { infoValue } from '../bag/bag-info.ts'
import { SIGNED } from '../bag/write-bag.ts'
import { count, listed } from '../text/quantity.ts'
import type { BagReceived, Difference, Question, Receipt } from './receipt.ts'

// More would scroll away; JSON has them all.
const MOST = 20

/** What is to be told of the bag, before the portraits are. */
export function bagLines({ from, bag }: Receipt, refused: string | null): string[] {
  if (bag === null)
    return [
      `${from} is not sealed: whether a file is missing, or was changed on the way, can't be known. Ask for a sealed delivery (portrait-gate seal).`,
      ...(refused === null ? [] : [`Not accepted. ${refused}`]),
    ]
  const packed = [infoValue(bag.info, 'Bagging-Date'), infoValue(bag.info, 'Source-Organization')]
  const [day, by] = packed
  const origin = `${day === null ? '' : `, packed ${day}`}${by === null ? '' : ` by ${by}`}`
  const head =
    refused === null
      ? `${from} is whole and unchanged${origin}.`
      : `${from}${origin === '' ? '' : `${origin},`} is not accepted. ${refused}`
  return [
    head,
    ...foundLines(bag.problems, 'problem'),
    ...foundLines(bag.warnings, 'warning'),
    refused === null ? signatureLine(bag) : `Nothing was judged. ${nextStep(bag)}`,
  ]
}

/** What to do about a bag that is not accepted. */
function nextStep({ valid, signature }: BagReceived): string {
  if (!valid || signature?.state === 'wrong')
    return 'Ask the sender for the delivery again, or for the files named here.'
  return signature === null
    ? 'Ask the studio to sign it (portrait-gate seal --sign).'
    : 'Ask the studio some other way, such as by phone, whether that key is theirs; if so, add it to your list.'
}

function foundLines(found: BagReceived['problems'], word: string): string[] {
  const shown = found
    .slice(0, MOST)
    .map(({ file, message }) => `  ${word}: ${file === null ? '' : `${file}: `}${message}`)
  const more = found.length - shown.length
  return more > 0 ? [...shown, `  and ${count(more, `more ${word}`)}; --format json has them all.`] : shown
}

function signatureLine({ signature }: BagReceived): string {
  if (signature === null) return "It is not signed: who packed it can't be known."
  const { state, signer, key } = signature
  if (state === 'known') return `It is signed by ${signer} (key ${key}).`
  if (state === 'wrong') return `Its signature does not fit ${SIGNED}.`
  return `It is signed with the key ${key}. Ask the studio some other way, such as by phone, whether that key is theirs; then name your list of keys with --signers.`
}

/** What is to be told after the portraits: where the specs differ, and what the studio asks for. */
export function termsLines({ differences, questions }: Receipt): string[] {
  return [...differenceLines(differences), ...questionLines(questions)]
}

function differenceLines(differences: readonly Difference[] | null): string[] {
  if (differences === null) return []
  if (differences.length === 0) return ['The studio checked by the same spec.']
  const lines = differences.map(({ setting, ours, theirs }) => {
    if (theirs === null) return `  ${setting}: yours is ${ours}; theirs has none.`
    if (ours === null) return `  ${setting}: theirs is ${theirs}; yours has none.`
    return `  ${setting}: yours is ${ours}; theirs is ${theirs}.`
  })
  return ['The studio checked by another spec; yours counts. They differ in:', ...lines]
}

function questionLines(questions: readonly Question[]): string[] {
  if (questions.length === 0) return []
  const lines = questions.flatMap(({ rule, files, people, finding, reason, approvedBy, until }, i) => [
    `  ${i + 1}. ${rule}, ${listed(files.length > 0 ? files : people) || 'the delivery'}: ${finding}`,
    `     The studio's reason: ${reason} (${approvedBy}, until ${until})`,
  ])
  return [
    `The studio asks you to accept ${count(questions.length, 'finding')}. To accept one, copy its entry from portrait-gate/waivers.yaml into your own waivers file, with the name of who approves it:`,
    ...lines,
  ]
}
