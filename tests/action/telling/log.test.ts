import { expect, test } from 'vitest'
import { Log } from '../../../src/action/telling/log.ts'
import { forWorkflowLog } from '../../../src/report/safe.ts'
import { logCommands } from '../runner/log-commands.ts'

function printed(...texts: readonly string[]): string {
  const out: string[] = []
  const log = new Log((text) => out.push(text))
  for (const text of texts) log.write(text)
  log.end()
  return out.join('')
}

test('the harness takes commands from a log that is not guarded', () => {
  expect(logCommands('  ::add-mask::x\nb ##[error]y').map(({ name }) => name)).toEqual(['add-mask', 'error'])
})

test.each([
  ['at the head of a line', ['::error::x\n']],
  ['after spaces', ['  ::set-output name=verdict::pass\n']],
  ['in the middle', ['print/##[add-mask]x.jpg fails\n']],
  ['put together from two writes', [':', ':error::x', '\n']],
  ['behind a carriage return', ['a\r::error::x\n']],
  ['many colons and signs', ['::::error:::: ####[[error]x\n']],
])('%s nothing is a command', (_, texts) => {
  const text = printed(...texts)
  expect(logCommands(text)).toEqual([])
  expect(text).not.toMatch(/::|##\[/)
})

test('ordinary lines stay as they are, and an open line is ended', () => {
  expect(printed('brand.yaml:3:7: Åsa is fine.\n', 'open')).toBe('brand.yaml:3:7: Åsa is fine.\nopen\n')
})

test('what is written out is not written out again', () => {
  const once = forWorkflowLog(':::##[')
  expect(once).toBe(':<U+003A><U+003A>##<U+005B>')
  expect(forWorkflowLog(once)).toBe(once)
})
