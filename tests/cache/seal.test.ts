import { createHash } from 'node:crypto'
import { expect, test } from 'vitest'
import { nameOf, sealed, unsealed } from '../../src/cache/seal.ts'

const secret = createHash('sha256').update('a picture').digest('hex')
const other = createHash('sha256').update('another picture').digest('hex')
const TEXT = '{"head":{"crown":{"x":0.5,"y":0.1}},"metadata":{"personShown":["Priya Nair"]}}'

test('opens with the hash of its picture and with no other', () => {
  const content = sealed(TEXT, secret)
  expect(unsealed(content, secret)).toBe(TEXT)
  expect(unsealed(content, other)).toBeNull()
  expect(content.includes('Nair')).toBe(false)
  expect(content.includes(secret)).toBe(false)
})

test('does not open when any byte was changed or is missing', () => {
  const content = sealed(TEXT, secret)
  for (let i = 0; i < content.length; i++) {
    const changed = Buffer.from(content)
    changed[i] = (changed[i] as number) ^ 1
    expect(unsealed(changed, secret), `byte ${i}`).toBeNull()
    expect(unsealed(content.subarray(0, i), secret), `${i} bytes`).toBeNull()
  }
})

test('its name tells neither the hash nor what is sealed, and differs by what it is about', () => {
  const names = [nameOf(secret, 'pixels'), nameOf(secret, 'header'), nameOf(other, 'pixels'), secret]
  expect(new Set(names).size).toBe(4)
})
