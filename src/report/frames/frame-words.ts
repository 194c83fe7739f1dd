import type { CropRoom, FrameReport } from '../../frames/frame-report.ts'
import { doubtSentence } from '../../rules/judging/doubts.ts'
import { quantity } from '../../text/quantity.ts'
import { adviceSentence } from './advice-words.ts'

/** How a frame stands, in a word. */
export const STANDING = { pass: 'usable', unsure: 'unsure', fail: 'unusable' } as const

/** Why a frame stands where it does: what is wrong or unknown and what to change; of a usable one, what it is nearest to fail. */
export function frameReason(frame: FrameReport): string {
  const { verdict, scene, rooms, advice } = frame
  if (verdict === 'pass') return nearestText(frame)
  const isOpen = (one: { readonly verdict: string }) => one.verdict === verdict
  const reasons = [
    ...scene.filter((one) => !one.advisory && isOpen(one)).map(({ reason }) => reason),
    ...rooms.filter(isOpen).map(roomSentence),
  ]
  const changes = advice.filter((one) => !one.advisory && one.code !== 'check').map(adviceSentence)
  if (reasons.length === 0) return 'Nothing could be judged.'
  return [...reasons, ...new Set(verdict === 'fail' ? changes : [])].join(' ')
}

function nearestText({ nearest }: FrameReport): string {
  if (!nearest) return 'Nothing is near a limit.'
  const { rule, marginPct } = nearest
  const room = quantity(marginPct, ' %')
  if (rule !== 'crop-room') return `Nearest to a limit: ${rule}, with ${room} of its range left.`
  const spare = marginPct > 0 ? `${room} more pixels than ordered` : 'no pixel to spare'
  return `Nearest to a limit: crop-room, with ${spare}.`
}

/** Whether a deliverable has room in the frame, in a sentence. */
function roomSentence({ deliverable, verdict, doubts }: CropRoom): string {
  const what = deliverable === null ? 'the crop' : `the crop for ${deliverable}`
  if (verdict === 'fail') return `There is no room for ${what}.`
  const why = doubts.length > 0 ? doubtSentence(doubts) : 'it is too close to call'
  return `Whether there is room for ${what} is uncertain: ${why}; check by eye.`
}
