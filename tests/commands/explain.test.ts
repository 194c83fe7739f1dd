import stringWidth from 'string-width'
import { describe, expect, test } from 'vitest'
import { loadSpec } from '../../src/brand-spec/load.ts'
import { explain } from '../../src/commands/explain.ts'
import { specKeys } from '../../src/commands/explaining/spec-keys.ts'
import { run } from '../../src/commands/run.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'
import { recordingHost } from './host.ts'

async function explained(args: readonly string[], columns?: number): Promise<string> {
  const { host, stdout, stderr } = recordingHost('/', columns === undefined ? {} : { columns })
  expect(await explain(args, host)).toBe(0)
  expect(stderr()).toBe('')
  return stdout()
}

test('without a rule all are listed, their titles in one column', async () => {
  const lines = (await explained([])).split('\n').slice(0, ALL_RULES.length)
  expect(lines.map((line) => line.split(' ')[0])).toEqual(ALL_RULES.map(({ id }) => id))
  const starts = lines.map((line) => line.search(/(?<= {2})\S/))
  expect(new Set(starts).size).toBe(1)
})

describe('of one rule everything is told', () => {
  test('what it measures and why, its options, an example and what to do', async () => {
    expect(await explained(['eye-line'], 100)).toMatchInlineSnapshot(`
      "eye-line: Height of the eyes in the frame

      What is measured
        The mean height of the two irises, in percent of the frame height from the top edge. Each value
        comes with an error that covers 95 of 100 true values; where a limit is nearer than half of that
        error, the rule is unsure.

      Decided by
        The crop.

      Why
        With the eyes at one height, a row of portraits looks as if made in one sitting.

      In the spec
        Takes { min, max }, { min }, { max } or { target, tolerance }; false switches the rule off.
        A range, ends included: { min, max }, one of the two alone, or { target, tolerance }.
          min        a number
          max        a number
          target     a number
          tolerance  a number of 0 or more

      Example
        eye-line: { min: 33, max: 42 }

      Fix
        Move the crop up or down; the headroom changes with it.
      "
    `)
  })

  test('its options too', async () => {
    const told = await explained(['headroom'])
    expect(told).toContain('Takes { min, max }, { min }, { max } or { target, tolerance }; false switches')
    expect(told).toMatch(/^ {4}tolerance {2}a number of 0 or more$/m)
    expect(told).not.toContain('Runs even when')
    expect(await explained(['intact'])).toContain('Runs even when the spec does not name it.')
  })
})

describe('lines keep to the width of the terminal', () => {
  test.each([
    [undefined, 80],
    [0, 80],
    [60, 60],
    [300, 100],
  ])('%s columns: at most %s', async (columns, most) => {
    for (const { id, text } of ALL_RULES) {
      // YAML is shown as it is written: broken elsewhere it would mean something else.
      const yaml = text.example.split('\n').map((line) => `  ${line}`)
      const lines = (await explained([id], columns)).split('\n').filter((line) => !yaml.includes(line))
      expect(Math.max(...lines.map((line) => stringWidth(line))), id).toBeLessThanOrEqual(most)
    }
  })
})

test('keys of a spec that are no rules are explained, and named below the rules', async () => {
  const told = await explained(['extends'], 200)
  expect(told).toMatch(/^extends: takes the path of another spec\n\nIn the spec\n {2}Path of a spec,/)
  expect(told.replace(/\s+/g, ' ')).toContain("a rule's options are replaced, not mixed")
  const naming = await explained(['naming'], 200)
  expect(naming.split('\n')[0]).toBe('naming: takes { pattern, fields, transliterate }')
  expect(naming.replace(/\s+/g, ' ')).toMatch(
    /pattern A text\. How the path of a file reads: .* fields A mapping\. .*\{ digits: 5 \}.* transliterate /,
  )
  expect((await explained([], 200)).replace(/\s+/g, ' ')).toContain(
    'Beside rules a spec has brand, version, extends, naming, deliverables, waivers, masters, prepare, consent and advisory.',
  )
})

test.each(specKeys().map(({ name, example }) => [name, example]))(
  '%s is told with an example that the spec takes',
  async (name, example) => {
    expect(await explained([name])).toContain(`\nExample\n  ${example}\n`)
    const head = ['brand', 'version'].filter((one) => one !== name)
    const lines = head.map((one) => specKeys().find((key) => key.name === one)?.example)
    const needed = { masters: 'naming: { pattern: "{staff-id}.jpg" }' }[name] ?? ''
    const spec = loadSpec([...lines, needed, example].join('\n'), 'brand.yaml', ALL_RULES, [
      { file: 'group.yaml', text: 'brand: X\nversion: 1\n' },
    ])
    expect(spec).toHaveProperty('spec')
  },
)

test('several rules are told one after the other', async () => {
  const told = await explained(['tilt', 'headroom'])
  expect(told.indexOf('tilt:')).toBe(0)
  expect(told.indexOf('\n\nheadroom:')).toBeGreaterThan(0)
})

test.each([
  [
    ['headrom'],
    'There is no rule "headrom"; did you mean headroom? See the list with: portrait-gate explain\n',
  ],
  [['zebra'], 'There is no rule "zebra". See the list with: portrait-gate explain\n'],
  [['\u001b[31m'], 'There is no rule "<U+001B>[31m". See the list with: portrait-gate explain\n'],
])('%j is answered by a sentence and code 2', async (args, sentence) => {
  const { host, stdout, stderr } = recordingHost('/')
  expect(await run(['explain', ...args], host)).toBe(2)
  expect(stderr()).toBe(sentence)
  expect(stdout()).toBe('')
})
