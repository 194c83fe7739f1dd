import { createHash } from 'node:crypto'
import { expect, test } from 'vitest'
import { nameOf, sealed, unsealed } from '../../src/cache/seal.ts'

const secret = createHash('sha256').update('a picture').digest('hex')
const other = createHash('sha256').update('another picture').digest('hex')
const ABOUT = 'a measurer, pixels'
const TEXT = '{"head":{"crown":{"x":0.5,"y":0.1}},"metadata":{"personShown":["Priya Nair"]}}'

test('opens with the hash of its picture and as what it is, with and as no other', () => {
  const content = sealed(TEXT, secret, ABOUT)
  expect(unsealed(content, secret, ABOUT)?.toString()).toBe(TEXT)
  expect(unsealed(content, other, ABOUT)).toBeNull()
  expect(unsealed(content, secret, 'another measurer, pixels')).toBeNull()
  expect(content.includes('Nair')).toBe(false)
  expect(content.includes(secret)).toBe(false)
})

test('does not open when any byte was changed or is missing', () => {
  const content = sealed(TEXT, secret, ABOUT)
  for (let i = 0; i < content.length; i++) {
    const changed = Buffer.from(content)
    changed[i] = (changed[i] as number) ^ 1
    expect(unsealed(changed, secret, ABOUT), `byte ${i}`).toBeNull()
    expect(unsealed(content.subarray(0, i), secret, ABOUT), `${i} bytes`).toBeNull()
  }
})

test('its name tells neither the hash nor what is sealed, and differs by what it is about', () => {
  const names = [nameOf(secret, 'pixels'), nameOf(secret, 'header'), nameOf(other, 'pixels'), secret]
  expect(new Set(names).size).toBe(4)
})
