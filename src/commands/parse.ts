import { CommanderError, type Command as Program } from 'commander'
import { EXIT, type Host } from '../checking/host.ts'

export type Parsed<Options> =
  | { readonly options: Options; readonly paths: readonly string[] }
  | { readonly exit: number }

/**
 * Parses a command's own arguments. Help goes to standard output, a wrong use to standard error with exit code 2; the
 * process is left alone.
 */
export function parse<Options extends object>(
  program: Program,
  args: readonly string[],
  host: Host,
): Parsed<Options> {
  program
    .exitOverride()
    .showHelpAfterError(`Run ${program.name()} --help for its options.`)
    .configureOutput({
      writeOut: (text) => host.stdout.write(text),
      writeErr: (text) => host.stderr.write(text),
      outputError: (text, write) => write(`${text}${fileHint(text)}`),
      getOutHelpWidth: () => host.stdout.columns ?? 80,
      getErrHelpWidth: () => host.stderr.columns ?? 80,
    })
  try {
    program.parse(args, { from: 'user' })
  } catch (error) {
    if (error instanceof CommanderError) return { exit: error.exitCode === 0 ? EXIT.fine : EXIT.trouble }
    throw error
  }
  // An argument's default is in processedArgs, not in args.
  const [paths] = program.processedArgs as [(readonly string[])?]
  return { options: program.opts<Options>(), paths: paths ?? [] }
}

/** What to write for a file that is taken for an option, since its name begins with a dash. */
function fileHint(error: string): string {
  const name = /unknown option '(-[^']*\.[^'.]+)'/.exec(error)?.[1]
  return name === undefined ? '' : `If that is a file, write ./${name}\n`
}
