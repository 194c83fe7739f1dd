import { dirname, extname, join } from 'node:path'
import type { Host } from '../checking/host.ts'
import { saving } from '../checking/save.ts'
import { UsageError } from '../checking/usage-error.ts'
import { writeWhole } from '../files/write-whole.ts'

/** What a report is written as, and where: to the file, or to standard output. */
export interface Sink<Format extends string> {
  readonly format: Format
  readonly file: string | null
}

/**
 * Collects `--format` and `--output` in the order in which they stand: an `--output` belongs to the `--format` before
 * it; on its own it takes the format from its extension. What has no file goes to standard output.
 */
export class Sinks<Format extends string> {
  readonly #extensions: Readonly<Record<string, Format>>
  readonly #formats: readonly Format[]
  readonly #fallback: Format
  readonly #sinks: { format: Format; file: string | null }[] = []

  /** @param extensions format by file extension; @param fallback what is printed when nothing is asked for */
  constructor(formats: readonly Format[], extensions: Readonly<Record<string, Format>>, fallback: Format) {
    this.#formats = formats
    this.#extensions = extensions
    this.#fallback = fallback
  }

  addFormat(name: string): void {
    const format = this.#formats.find((known) => known === name)
    if (!format) throw new UsageError(`--format ${name} is unknown; choose ${list(this.#formats)}.`)
    this.#sinks.push({ format, file: null })
  }

  addOutput(file: string): void {
    const last = this.#sinks.at(-1)
    if (last && last.file === null) {
      last.file = file
      return
    }
    const format = this.#extensions[extname(file).toLowerCase()]
    if (!format) {
      const known = Object.keys(this.#extensions)
      throw new UsageError(`--output ${file}: put a --format before it, or end its name in ${list(known)}.`)
    }
    this.#sinks.push({ format, file })
  }

  /** @throws UsageError when two formats would be mixed on standard output */
  finish(): readonly Sink<Format>[] {
    const printed = this.#sinks.filter((sink) => sink.file === null)
    if (printed.length > 1) {
      throw new UsageError(
        `Only one format can be printed; give ${list(printed.slice(1).map((s) => s.format))} an --output FILE.`,
      )
    }
    return printed.length === 1 ? this.#sinks : [...this.#sinks, { format: this.#fallback, file: null }]
  }
}

/** What a text is laid out for: a terminal of some width, in color or not. */
export interface Layout {
  readonly columns: number
  readonly color: boolean
}

/** A report as it is written: one text, or one with others that lie beside its file, by their names. */
export type Rendered = string | { readonly text: string; readonly beside: ReadonlyMap<string, string> }

// The width of a classic terminal, for files and for terminals that don't tell theirs.
const COLUMNS = 80

/**
 * Writes each sink: files first, so that what is printed never speaks of files that could not be written.
 * @throws UsageError when a file can't be written
 */
export async function writeSinks<Format extends string>(
  sinks: readonly Sink<Format>[],
  render: (format: Format, layout: Layout, file: string | null) => Rendered,
  host: Host,
): Promise<void> {
  for (const { format, file } of sinks) {
    if (file === null) continue
    await saving(file, host, () =>
      writeRendered(file, render(format, { columns: COLUMNS, color: false }, file), host),
    )
  }
  const layout = {
    columns: host.stdout.columns ?? COLUMNS,
    color: host.stdout.isTTY && !host.env.NO_COLOR,
  }
  for (const { format, file } of sinks) {
    if (file !== null) continue
    const rendered = render(format, layout, null)
    host.stdout.write(typeof rendered === 'string' ? rendered : rendered.text)
  }
}

/** What lies beside a file is written before it, so that it never speaks of what is not there. */
async function writeRendered(file: string, rendered: Rendered, host: Host): Promise<void> {
  if (typeof rendered === 'string') return writeWhole(file, rendered, host)
  for (const [name, text] of rendered.beside) await writeWhole(join(dirname(file), name), text, host)
  await writeWhole(file, rendered.text, host)
}

function list(words: readonly string[]): string {
  if (words.length < 2) return words.join('')
  return `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`
}
