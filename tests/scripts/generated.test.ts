import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { generatedFiles } from '../../scripts/generated.ts'

const files = await generatedFiles()

describe('generated files are current; else run: npm run generate', () => {
  test.each([...files])('%s', (path, text) => {
    expect(readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8')).toBe(text)
  })
})
