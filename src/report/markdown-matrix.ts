import type { CellState, Matrix } from '../judge/matrix.ts'
import { count } from '../text/quantity.ts'
import { matrixLines, unplacedSentence } from './matrix-lines.ts'
import { forMarkdown } from './safe.ts'

const WORDS: Readonly<Record<CellState, string>> = {
  pass: 'pass',
  fail: '**fail**',
  unsure: '*unsure*',
  missing: '**missing**',
  double: '**double**',
  absent: 'absent',
  perhaps: '**maybe?**',
}

/** Who has what, as a table of GitHub Flavored Markdown, as many rows as there is room for. */
export function markdownMatrix(matrix: Matrix, all: boolean, room: { bytes: number }): string[] {
  const { deliverables } = matrix
  const unplaced = unplacedSentence(matrix)
  const rows = matrixLines(matrix, all)
  const heads = ['Person', ...(deliverables.length > 0 ? deliverables : ['portrait']).map(forMarkdown)]
  const lines = [line(heads), line(heads.map(() => '---'))]
  let kept = 0
  for (const { row, people } of rows) {
    const { person, listed, perhaps, absent, cells } = row
    const guess = perhaps === null ? '' : ` (${forMarkdown(perhaps)}?)`
    const name = `${people > 1 ? `${people} people alike` : forMarkdown(person)}${listed ? guess : ' (not on the roster)'}`
    const why = absent === null ? '' : `: ${forMarkdown(absent)}`
    const text = line([
      name,
      ...cells.map(({ state }, index) => `${WORDS[state]}${state === 'absent' && index === 0 ? why : ''}`),
    ])
    room.bytes -= Buffer.byteLength(text) + 1
    if (room.bytes < 0) break
    lines.push(text)
    kept++
  }
  const missing = rows.length - kept
  return [
    '### Who has what',
    lines.join('\n'),
    ...(missing > 0
      ? [
          `${count(missing, 'more person', 'more people')}, left out because a summary is limited to 1 MiB; the JSON report has them all.`,
        ]
      : []),
    ...(unplaced === null ? [] : [unplaced]),
  ]
}

function line(cells: readonly string[]): string {
  return `| ${cells.join(' | ')} |`
}
