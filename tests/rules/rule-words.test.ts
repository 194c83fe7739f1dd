import { expect, test } from 'vitest'
import { run } from '../../src/commands/run.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'
import { RULE_WORDS, rulesMeantBy } from '../../src/rules/rule-words.ts'
import { recordingHost } from '../commands/host.ts'

const IDS = ALL_RULES.map(({ id }) => id)

test('every word means rules that there are, and is no rule itself', () => {
  for (const word of RULE_WORDS) {
    expect(IDS, word).not.toContain(word)
    expect(rulesMeantBy(word).length, word).toBeGreaterThan(0)
    for (const id of rulesMeantBy(word)) expect(IDS, word).toContain(id)
  }
  expect(rulesMeantBy('constructor')).toEqual([])
})

test.each([
  ['dpi', 'resolution:'],
  ['GPS', 'metadata-forbidden:'],
  ['icc', 'color-space:'],
  ['monochrome', 'allow-monochrome'],
  ['blur', 'eye-focus:'],
  ['sharpness', 'eye-focus:'],
  ['crop', 'headroom:'],
  ['glasses', 'lens-glare:'],
  ['background', 'background-tint:'],
])('explain %s tells of %s', async (word, heading) => {
  const { host, stdout } = recordingHost(process.cwd())
  expect(await run(['explain', word], host)).toBe(0)
  expect(stdout()).toContain(heading)
})

test('a misspelled word is asked back', async () => {
  const { host, stderr } = recordingHost(process.cwd())
  expect(await run(['explain', 'sharpnes'], host)).toBe(2)
  expect(stderr()).toContain('did you mean sharpness?')
})
