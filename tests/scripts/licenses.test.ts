import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { licensesPage } from '../../scripts/licenses.ts'

const locked = (packages: object, held: readonly string[] = []) =>
  licensesPage(JSON.stringify({ packages: { '': { version: '1' }, ...packages } }), held)

test('packages by license, held or installed; builds for several systems are one; tools for development are none', () => {
  const packages = {
    'node_modules/b': { version: '2.0.0', license: 'MIT' },
    'node_modules/b/node_modules/a': { version: '1.0.0', license: 'MIT' },
    'node_modules/@c/d-linux-x64': { version: '3.0.0', license: 'ISC', optional: true },
    'node_modules/@c/d-darwin-arm64': { version: '3.0.0', license: 'ISC', optional: true },
    'node_modules/e': { version: '4.0.0', license: 'GPL-3.0', dev: true },
    'node_modules/f': { version: '5.0.0', license: 'ISC', dev: true },
  }
  const page = locked(packages, ['f'])
  expect(page.split('\n').filter((line) => /^(?:##+|-) /.test(line))).toEqual([
    '## Inside the package',
    '### ISC',
    '- `f` 5.0.0',
    '## Installed with it',
    '### ISC',
    '- `@c/d-*` 3.0.0 (2 builds, one for each system)',
    '### MIT',
    '- `a` 1.0.0',
    '- `b` 2.0.0',
  ])
})

test('a package without a license is an error', () => {
  expect(() => locked({ 'node_modules/a': { version: '1.0.0' } })).toThrow(/^a states no license/)
})

// The lock file copies what each package's own description says.
test('every package of ours on the page says the same of its license itself', () => {
  const page = readFileSync('docs/licenses.md', 'utf8')
  const { dependencies, devDependencies } = JSON.parse(readFileSync('package.json', 'utf8'))
  const ours = { ...dependencies, ...devDependencies }
  const told = [...page.matchAll(/^- `([^`]+)` (\S+)$/gm)].filter(([, name = '']) => name in ours)
  expect(told.length).toBeGreaterThan(10)
  for (const [line, name = '', version] of told) {
    const own = JSON.parse(readFileSync(join('node_modules', name, 'package.json'), 'utf8'))
    const sections = page.split(/^###? /m).filter((one) => one.split('\n').includes(line))
    expect({ name, version, license: own.license }).toEqual({
      name,
      version: ours[name],
      license: sections.map((one) => one.split('\n')[0]).join(),
    })
  }
})
