import { type Command, EXIT, type Host } from '../checking/host.ts'
import { UsageError } from '../checking/usage-error.ts'
import { TOOL } from '../judge/tool.ts'
import { forTerminal } from '../report/safe.ts'
import { didYouMean } from '../text/nearest.ts'
import { startEarly } from './start-early.ts'

interface Named {
  readonly about: string
  /** Whether it measures portraits as soon as it can. */
  readonly measures?: boolean
  readonly load: () => Promise<Command>
}

// Loaded when called: `--version` need not wait for the picture library.
const COMMANDS: Readonly<Record<string, Named>> = {
  check: {
    about: 'measure every portrait and judge it by the brand spec',
    measures: true,
    load: async () => (await import('./check.ts')).check,
  },
  seal: {
    about: 'check a delivery and pack it so that the client can tell it is whole',
    load: async () => (await import('./seal.ts')).seal,
  },
  receive: {
    about: 'verify a delivery that was sent, and judge it by your own spec',
    load: async () => (await import('./receive.ts')).receive,
  },
  desk: {
    about: 'open a page to receive deliveries on: drop them, look, answer, sign',
    load: async () => (await import('./desk.ts')).desk,
  },
  prepare: {
    about: 'make the ordered files of retouched masters and deliver those without a failure',
    load: async () => (await import('./prepare.ts')).prepare,
  },
  watch: {
    about: 'judge frames on location as they arrive, and show a page for the set',
    load: async () => (await import('./watch.ts')).watch,
  },
  published: {
    about: 'hold what a website shows against what was approved',
    load: async () => (await import('./published.ts')).published,
  },
  merge: {
    about: 'combine the reports on the parts of a delivery and judge it as a whole',
    load: async () => (await import('./merge.ts')).merge,
  },
  measure: {
    about: 'print the measurements, without a spec',
    measures: true,
    load: async () => (await import('./measure.ts')).measure,
  },
  gallery: {
    about: 'save the numbers of published portraits, to compare new ones with',
    measures: true,
    load: async () => (await import('./gallery.ts')).gallery,
  },
  derive: {
    about: 'propose a brand spec from approved portraits',
    measures: true,
    load: async () => (await import('./derive.ts')).derive,
  },
  init: {
    about: 'write a starter brand spec',
    load: async () => (await import('./init.ts')).init,
  },
  explain: {
    about: 'explain what a rule measures, why, and how to fix a failure',
    load: async () => (await import('./explain.ts')).explain,
  },
}

/**
 * Runs a command line (without node and script) and gives the exit code. Trouble that the user can fix is a sentence
 * on standard error and code 2.
 */
export async function run(argv: readonly string[], host: Host): Promise<number> {
  const [first, ...rest] = argv
  if (first === undefined || first === '--help' || first === '-h' || first === 'help') {
    const [about] = rest
    if (first === 'help' && about !== undefined) return run([about, '--help'], host)
    host.stdout.write(help())
    return first === undefined ? EXIT.trouble : EXIT.fine
  }
  if (first === '--version' || first === '-V') {
    host.stdout.write(`${TOOL.version}\n`)
    return EXIT.fine
  }
  const command = Object.hasOwn(COMMANDS, first) ? COMMANDS[first] : undefined
  if (!command) {
    const named = forTerminal(first) + didYouMean(first, Object.keys(COMMANDS))
    host.stderr.write(`There is no command ${named} Run portrait-gate --help for the commands.\n`)
    return EXIT.trouble
  }
  const early = command.measures ? await startEarly(rest, host) : null
  try {
    return await (await command.load())(rest, { ...host, ...(early && { early }) })
  } catch (error) {
    if (!(error instanceof UsageError)) throw error
    host.stderr.write(`${forTerminal(error.message)}\n`)
    return EXIT.trouble
  } finally {
    await early?.close()
  }
}

function help(): string {
  const names = Object.keys(COMMANDS)
  const width = Math.max(...names.map((name) => name.length))
  return [
    'portrait-gate measures delivered staff portraits against a written brand spec.',
    '',
    'Usage: portrait-gate <command> [options]',
    '',
    ...Object.entries(COMMANDS).map(([name, { about }]) => `  ${name.padEnd(width)}  ${about}`),
    '',
    'portrait-gate <command> --help lists its options; --version prints the version.',
    'Exit codes: 0 nothing fails; 1 a portrait fails; 2 nothing could be judged.',
    '',
  ].join('\n')
}
