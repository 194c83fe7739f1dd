import type { CardReport } from '../../session/card-report.ts'
import { listed } from '../../text/quantity.ts'
import { forMarkdown } from '../safe.ts'
import { cardSentence, driftSentences, sitterSentence } from './card-table.ts'
import { frameReason, STANDING } from './frame-words.ts'

/** The frames of a card in GitHub Flavored Markdown. */
export function cardMarkdown(report: CardReport): string {
  const { brand, version, file } = report.spec
  const blocks = [
    `## ${cardSentence(report)}`,
    forMarkdown(`Brand spec: ${brand}, version ${version} (${file}).`),
    ...driftSentences(report).map(forMarkdown),
    ...report.sitters.flatMap((sitter) => [
      `### ${forMarkdown(sitterSentence(sitter))}`,
      [
        '| | Frame | Why |',
        '|---|---|---|',
        ...sitter.frames.map((frame) => {
          const picked = frame.pickedBy.length > 0 ? ` (picked by ${listed(frame.pickedBy)})` : ''
          return `| ${STANDING[frame.verdict]} | ${forMarkdown(frame.file + picked)} | ${forMarkdown(frameReason(frame))} |`
        }),
      ].join('\n'),
    ]),
  ]
  return `${blocks.join('\n\n')}\n`
}
