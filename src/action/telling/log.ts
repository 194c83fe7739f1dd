import type { Output } from '../../checking/host.ts'
import { forWorkflowLog } from '../../report/safe.ts'

/** A log in which no printed line is a workflow command, whoever wrote its text. Lines are printed once they are whole. */
export class Log implements Output {
  readonly isTTY = false
  readonly columns = 120
  readonly lines: string[] = []
  readonly #write: (text: string) => void
  #rest = ''

  /** @param write prints a text that is safe */
  constructor(write: (text: string) => void) {
    this.#write = write
  }

  write(text: string): void {
    const lines = (this.#rest + text).split('\n')
    this.#rest = lines.pop() ?? ''
    for (const line of lines) this.#print(line)
  }

  /** Prints what is left of a last line that was not ended. */
  end(): void {
    if (this.#rest !== '') this.write('\n')
  }

  #print(line: string): void {
    this.lines.push(line)
    this.#write(`${forWorkflowLog(line)}\n`)
  }
}
