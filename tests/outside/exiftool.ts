import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process'
import { afterAll } from 'vitest'
import { debianTool } from './debian.ts'

/** Runs ExifTool with arguments. @returns what it prints @throws Error with what it complains of, when it fails */
export type Exiftool = (...args: readonly string[]) => Promise<string>

/**
 * ExifTool for the tests of one file; null when it is not installed. One process does all that they ask, by its option
 * -stay_open: Perl takes longer to start than a picture to be read.
 */
export function startedExiftool(): Exiftool | null {
  const program = debianTool('libimage-exiftool-perl', 'exiftool')
  if (program === null) return null
  let running: Running | undefined
  afterAll(() => running?.end())
  return (...args) => {
    running ??= new Running(program)
    return running.ask(args)
  }
}

class Running {
  readonly #child: ChildProcessWithoutNullStreams
  #printed = ''
  #complained = ''
  #heard: () => void = () => {}
  #before: Promise<unknown> = Promise.resolve()

  constructor(program: string) {
    this.#child = spawn(program, ['-stay_open', 'True', '-@', '-'])
    this.#child.stdout.setEncoding('utf8').on('data', (text: string) => {
      this.#printed += text
      this.#heard()
    })
    this.#child.stderr.setEncoding('utf8').on('data', (text: string) => {
      this.#complained += text
      this.#heard()
    })
    this.#child.on('close', () => this.#heard())
  }

  /** One after the other. */
  ask(args: readonly string[]): Promise<string> {
    const answer = this.#before.then(() => this.#asked(args))
    this.#before = answer.catch(() => {})
    return answer
  }

  async #asked(args: readonly string[]): Promise<string> {
    if (args.some((arg) => arg.includes('\n'))) throw new Error('ExifTool reads one argument a line.')
    // It says on both outputs when it is done, and how it ended.
    // biome-ignore lint/suspicious/noTemplateCurlyInString: ExifTool puts the status there
    this.#child.stdin.write([...args, '-echo4', '{ended ${status}}', '-execute1\n'].join('\n'))
    for (;;) {
      const printed = /^(.*)\{ready1\}\n$/s.exec(this.#printed)
      const complained = /^(.*)\{ended (\d+)\}\n$/s.exec(this.#complained)
      if (printed && complained) {
        this.#printed = ''
        this.#complained = ''
        if (complained[2] !== '0') throw new Error(`exiftool ${args.join(' ')}: ${complained[1]}`)
        return printed[1] ?? ''
      }
      if (this.#child.exitCode !== null) throw new Error(`ExifTool has ended: ${this.#complained}`)
      await new Promise<void>((resolve) => {
        this.#heard = resolve
      })
    }
  }

  end(): void {
    this.#child.stdin.end('-stay_open\nFalse\n')
  }
}
