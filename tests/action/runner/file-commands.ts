/**
 * Outputs as the runner reads them from the file (github.com/actions/runner, src/Runner.Worker/FileCommandManager.cs,
 * on Linux: lines end with LF): `name=value`, or `name<<delimiter`, whichever sign comes first.
 */
export function parseOutputs(text: string): Record<string, string> {
  const outputs: Record<string, string> = Object.create(null)
  const lines = text.split('\n')
  if (lines.at(-1) === '') lines.pop()
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i] ?? ''
    if (line === '') continue
    const equals = line.indexOf('=')
    const heredoc = line.indexOf('<<')
    if (equals >= 0 && (heredoc < 0 || equals < heredoc)) {
      outputs[line.slice(0, equals)] = line.slice(equals + 1)
    } else if (heredoc > 0 && heredoc + 2 < line.length) {
      const delimiter = line.slice(heredoc + 2)
      const end = lines.indexOf(delimiter, i + 1)
      if (end < 0) throw new Error(`No line ends the value of ${line.slice(0, heredoc)}.`)
      outputs[line.slice(0, heredoc)] = lines.slice(i + 1, end).join('\n')
      i = end
    } else throw new Error(`The runner takes no such line: ${line}`)
  }
  return outputs
}
