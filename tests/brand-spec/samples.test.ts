import { readdirSync, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { loadSpec } from '../../src/brand-spec/load.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))

function filesBelow(folder: string, extension: string): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith(extension))
    .map((file) => join(folder, file))
}

const read = (file: string) => readFileSync(join(ROOT, file), 'utf8')

const specs = filesBelow('examples', '.yaml').filter((file) => basename(file).startsWith('brand'))
const quoted = ['README.md', ...filesBelow('docs', '.md')].flatMap((file) =>
  [...read(file).matchAll(/^```yaml\n(.*?)^```/gms)]
    .map(([, yaml = '']) => yaml)
    .filter((yaml) => /^brand:/m.test(yaml))
    .map((yaml, index) => [`${file}, ${index + 1}`, yaml] as const),
)

describe('every brand spec that we show loads without a problem', () => {
  test.each([...specs.map((file) => [file, read(file)] as const), ...quoted])('%s', (file, yaml) => {
    // A page shows what is extended before what extends it.
    const before = quoted.filter(([page]) => page.split(',')[0] === file.split(',')[0])
    const extended = yaml.includes('\nextends:') ? before.slice(0, 1) : []
    const texts = extended.map(([page, text]) => ({ file: page, text }))
    expect(loadSpec(yaml, file, ALL_RULES, texts)).not.toHaveProperty('problems')
  })

  test('and there are some', () => {
    expect(specs.length).toBeGreaterThan(0)
    expect(quoted.length).toBeGreaterThan(0)
  })
})
