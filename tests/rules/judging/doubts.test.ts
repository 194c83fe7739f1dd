import { expect, test } from 'vitest'
import { Doubt } from '../../../src/measure/schema/measurements.ts'
import { doubtSentence } from '../../../src/rules/judging/doubts.ts'

test('every doubt has its own words', () => {
  const sentences = Doubt.anyOf.map(({ const: doubt }) => doubtSentence([doubt]))
  expect(new Set(sentences).size).toBe(sentences.length)
  for (const sentence of sentences) expect(sentence).toMatch(/^[a-z].*[^.]$/)
})

test('several stand one after the other; none is told too', () => {
  expect(doubtSentence(['no-face', 'backdrop-too-small'])).toBe(
    'no face was found; too little of the backdrop shows in the frame',
  )
  expect(doubtSentence([])).toBe('the measurement is weak')
})
