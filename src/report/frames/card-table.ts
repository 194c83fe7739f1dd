import pc from 'picocolors'
import stringWidth from 'string-width'
import type { CardFrame, CardReport, SitterFrames } from '../../session/card-report.ts'
import { count, listed } from '../../text/quantity.ts'
import { sideBySide } from '../columns.ts'
import { forTerminal } from '../safe.ts'
import { driftSentence } from './drift-words.ts'
import { frameReason, STANDING } from './frame-words.ts'

// Narrower than this nothing reads well.
const NARROWEST = 40
const GAP = 2
/** Of the name of a file at most so much of the width is given to it, share. */
const NAMES = 0.4

/** The frames of a card for a terminal: each sitter's, the best first, with the reason. */
export function cardTable(
  report: CardReport,
  { columns, color }: { readonly columns: number; readonly color: boolean },
): string {
  const width = Math.max(NARROWEST, columns)
  const colors = pc.createColors(color)
  const paints = { pass: colors.green, unsure: colors.yellow, fail: colors.red }
  const paragraph = (text: string) => sideBySide(0, 0, [{ text: forTerminal(text), width }])
  const row = (frame: CardFrame, names: number) => {
    const word = STANDING[frame.verdict]
    const words = Math.max(...Object.values(STANDING).map((one) => one.length))
    const reasons = width - 2 - words - names - 2 * GAP
    return sideBySide(2, GAP, [
      { text: word, width: words, paint: paints[frame.verdict] },
      { text: forTerminal(nameOf(frame)), width: names },
      { text: forTerminal(frameReason(frame)), width: reasons },
    ])
  }
  const blocks = [
    [
      ...paragraph(cardSentence(report)),
      ...paragraph(`${report.spec.brand}, brand spec version ${report.spec.version} (${report.spec.file})`),
    ],
    driftSentences(report).flatMap(paragraph),
    ...report.sitters.map((sitter) => {
      const longest = Math.max(...sitter.frames.map((frame) => stringWidth(forTerminal(nameOf(frame)))))
      const names = Math.min(longest, Math.floor(NAMES * width))
      return [...paragraph(sitterSentence(sitter)), ...sitter.frames.flatMap((frame) => row(frame, names))]
    }),
  ].filter((block) => block.length > 0)
  return `${blocks.map((block) => block.join('\n')).join('\n\n')}\n`
}

function nameOf({ file, pickedBy }: CardFrame): string {
  return pickedBy.length > 0 ? `${file} (picked by ${listed(pickedBy)})` : file
}

/** How many have a usable frame. */
export function cardSentence({ totals, sitters }: CardReport): string {
  const { frames, pass, sittersWithout } = totals
  const usable = `${pass} of ${count(frames, 'frame')} ${pass === 1 ? 'is' : 'are'} usable`
  if (sitters.every(({ sitter }) => sitter === null)) return `${usable}.`
  const have = totals.sitters - sittersWithout
  return `${have} of ${count(totals.sitters, 'sitter')} ${have === 1 ? 'has' : 'have'} a usable frame; ${usable}.`
}

/** One sitter's frames in a line. */
export function sitterSentence({ sitter, usable, frames }: SitterFrames): string {
  const of = `${usable} of ${count(frames.length, 'frame')} usable`
  return sitter === null ? `Frames whose sitter is not known: ${of}` : `${sitter}: ${of}`
}

/** What has drifted, a sentence each. */
export function driftSentences({ drift }: CardReport): string[] {
  return drift.map((one) => driftSentence(one, one.time.slice(11, 16)))
}
