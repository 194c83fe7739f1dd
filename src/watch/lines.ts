import type { JudgedFrame } from './judged-frame.ts'
import { nameOf } from './pick-name.ts'

const WORDS = { pass: 'good  ', fail: 'CHANGE', unsure: 'look  ' } as const

/** A frame as a line of the terminal: when, which, whose, and what is said of it. */
export function frameLine({ frame, verdict, line }: JudgedFrame): string {
  const time = new Date(frame.at).toTimeString().slice(0, 8)
  return `${time}  ${WORDS[verdict]}  ${nameOf(frame)}  ${frame.sitter ?? 'nobody'}: ${line}`
}
