import type { CardReport } from '../../session/card-report.ts'
import { csvText } from '../csv-text.ts'
import { adviceSentence } from './advice-words.ts'
import { frameReason, STANDING } from './frame-words.ts'

/** The frames of a card for a spreadsheet: a line each, the best of each sitter first. */
export function cardCsv({ sitters }: CardReport): string {
  const rows = sitters.flatMap(({ sitter, frames }) =>
    frames.map(
      (frame, index) =>
        new Map<string, string | number | null>([
          ['sitter', sitter],
          ['rank', index + 1],
          ['file', frame.file],
          ['standing', STANDING[frame.verdict]],
          ['reason', frameReason(frame)],
          ['change', frame.advice.map(adviceSentence).join(' ')],
          ['nearest', frame.nearest?.rule ?? null],
          ['margin %', frame.nearest ? Math.round(frame.nearest.marginPct) : null],
          ['picked by', frame.pickedBy.join(', ')],
        ]),
    ),
  )
  return csvText(rows, COLUMNS)
}

const COLUMNS = ['sitter', 'rank', 'file', 'standing', 'reason', 'change', 'nearest', 'margin %', 'picked by']
