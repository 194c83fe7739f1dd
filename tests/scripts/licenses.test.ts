import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { expect, test } from 'vitest'
import { licensesPage } from '../../scripts/licenses.ts'

const locked = (packages: object) =>
  licensesPage(JSON.stringify({ packages: { '': { version: '1' }, ...packages } }))

test('packages by license; builds for several systems are one; tools for development are none', () => {
  const page = locked({
    'node_modules/b': { version: '2.0.0', license: 'MIT' },
    'node_modules/b/node_modules/a': { version: '1.0.0', license: 'MIT' },
    'node_modules/@c/d-linux-x64': { version: '3.0.0', license: 'ISC', optional: true },
    'node_modules/@c/d-darwin-arm64': { version: '3.0.0', license: 'ISC', optional: true },
    'node_modules/e': { version: '4.0.0', license: 'GPL-3.0', dev: true },
  })
  expect(page.split('\n').filter((line) => /^(?:##|-) /.test(line))).toEqual([
    '## ISC',
    '- `@c/d-*` 3.0.0 (2 builds, one for each system)',
    '## MIT',
    '- `a` 1.0.0',
    '- `b` 2.0.0',
  ])
})

test('a package without a license is an error', () => {
  expect(() => locked({ 'node_modules/a': { version: '1.0.0' } })).toThrow(/^a states no license/)
})

// The lock file copies what each package's own description says.
test('every package that runs says the same of its license itself', () => {
  const require = createRequire(import.meta.url)
  const page = readFileSync('docs/licenses.md', 'utf8')
  const { dependencies } = require('../../package.json') as { dependencies: Record<string, string> }
  for (const name of Object.keys(dependencies)) {
    const own = JSON.parse(readFileSync(`node_modules/${name}/package.json`, 'utf8')) as { license: string }
    const [, section = ''] = page.split(`## ${own.license}\n`)
    expect(section.split('\n## ', 1)[0], name).toContain(`- \`${name}\` ${dependencies[name]}\n`)
  }
})
