/** A workflow command as the runner understood it. */
export interface LogCommand {
  readonly name: string
  readonly properties: Readonly<Record<string, string>>
  readonly data: string
}

// All that runners have ever taken from a log.
const REGISTERED = new Set(
  'add-path set-env set-output save-state add-mask add-matcher remove-matcher warning error notice debug group endgroup echo stop-commands internal-set-repo-path'.split(
    ' ',
  ),
)

/** The commands in a log, read by the runner's rules (github.com/actions/runner, src/Runner.Common/ActionCommand.cs). */
export function logCommands(log: string): LogCommand[] {
  return log.split(/\r\n|\r|\n/).flatMap((line) => doubleColon(line) ?? bracket(line) ?? [])
}

function doubleColon(line: string): LogCommand | null {
  const trimmed = line.trimStart()
  const end = trimmed.startsWith('::') ? trimmed.indexOf('::', 2) : -1
  if (end < 0) return null
  return command(trimmed.slice(2, end), trimmed.slice(end + 2), ',', unescaped)
}

function bracket(line: string): LogCommand | null {
  const start = line.indexOf('##[')
  const end = start < 0 ? -1 : line.indexOf(']', start)
  if (end < 0) return null
  return command(line.slice(start + 3, end), line.slice(end + 1), ';', (text) => text)
}

function command(
  info: string,
  data: string,
  between: string,
  decode: (text: string) => string,
): LogCommand | null {
  const space = info.indexOf(' ')
  const name = space < 0 ? info : info.slice(0, space)
  if (!REGISTERED.has(name)) return null
  const pairs = (space < 0 ? '' : info.slice(space + 1)).trim().split(between)
  const properties = pairs.flatMap((pair) => {
    const equals = pair.indexOf('=')
    return equals > 0 ? [[pair.slice(0, equals), decode(pair.slice(equals + 1))] as const] : []
  })
  return { name, properties: Object.fromEntries(properties), data: decode(data) }
}

/** In the runner's own order: the percent sign last. */
function unescaped(text: string): string {
  return text
    .replaceAll('%0D', '\r')
    .replaceAll('%0A', '\n')
    .replaceAll('%3A', ':')
    .replaceAll('%2C', ',')
    .replaceAll('%25', '%')
}
