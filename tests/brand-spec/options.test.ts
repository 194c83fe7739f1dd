import { Type } from '@sinclair/typebox'
import { expect, test } from 'vitest'
import { keySentence, optionsText } from '../../src/brand-spec/options.ts'
import { INVENTED } from './rules.ts'

const ofRule = (id: string) => {
  const rule = INVENTED.find((one) => one.id === id)
  if (!rule) throw new Error(id)
  return optionsText(rule)
}

test('each key of all forms is told once', () => {
  expect(ofRule('margin')).toEqual({
    takes: '{ min, max }, { min }, { max } or { target, tolerance }',
    about: '',
    keys: [
      { name: 'min', takes: 'a number', about: '' },
      { name: 'max', takes: 'a number', about: '' },
      { name: 'target', takes: 'a number', about: '' },
      { name: 'tolerance', takes: 'a number of 0 or more', about: '' },
    ],
  })
})

test('values without keys are told as they are', () => {
  expect(ofRule('sealed')).toEqual({ takes: 'true', about: '', keys: [] })
  expect(ofRule('code')).toMatchObject({ takes: 'a text', keys: [] })
  expect(ofRule('paper').takes).toBe('one of matt, gloss, silk or a list, each item one of matt, gloss, silk')
})

test.each([
  [Type.Number({ minimum: 0, maximum: 1 }), 'a number from 0 to 1'],
  [Type.Number({ exclusiveMinimum: 0 }), 'a number above 0'],
  [Type.Number({ exclusiveMaximum: 9 }), 'a number below 9'],
  [Type.Integer({ maximum: 9 }), 'a whole number of 9 or less'],
  [Type.Boolean(), 'true or false'],
  [Type.Array(Type.String()), 'a list, each item a text'],
  [Type.String({ title: 'the path of a file' }), 'the path of a file'],
])('%j: %s', (options, takes) => {
  expect(optionsText({ options }).takes).toBe(takes)
})

test('what a key takes begins a sentence when another follows', () => {
  expect(keySentence({ name: 'x', takes: 'a text', about: '' })).toBe('a text')
  expect(keySentence({ name: 'x', takes: 'a text', about: 'Of any length.' })).toBe('A text. Of any length.')
})
