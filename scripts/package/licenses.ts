import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

interface Described {
  readonly name: string
  readonly version: string
  readonly license: string
  readonly author?: string | { readonly name: string }
}

/** Packages in which a license's own text lies, for those that name it and carry none. */
const TEXTS: Readonly<Record<string, string>> = { 'Apache-2.0': 'sharp' }

/** https://spdx.org/licenses/ISC.html */
const ISC = (holder: string) => `ISC License

Copyright (c) ${holder}

Permission to use, copy, modify, and/or distribute this software for any purpose with or without fee is hereby granted, provided that the
above copyright notice and this permission notice appear in all copies.

THE SOFTWARE IS PROVIDED "AS IS" AND THE AUTHOR DISCLAIMS ALL WARRANTIES WITH REGARD TO THIS SOFTWARE INCLUDING ALL IMPLIED WARRANTIES OF
MERCHANTABILITY AND FITNESS. IN NO EVENT SHALL THE AUTHOR BE LIABLE FOR ANY SPECIAL, DIRECT, INDIRECT, OR CONSEQUENTIAL DAMAGES OR ANY
DAMAGES WHATSOEVER RESULTING FROM LOSS OF USE, DATA OR PROFITS, WHETHER IN AN ACTION OF CONTRACT, NEGLIGENCE OR OTHER TORTIOUS ACTION,
ARISING OUT OF OR IN CONNECTION WITH THE USE OR PERFORMANCE OF THIS SOFTWARE.
`

/**
 * The licenses of the packages of which the bundle holds a part, each with its text.
 * @param names of packages in `node_modules`
 * @throws Error when a package has no text and names a license that is not known here
 */
export function licenseTexts(names: readonly string[]): string {
  const parts = [...names].sort().map((name) => {
    const { version, license, author } = described(name)
    const holder = typeof author === 'string' ? author : (author?.name ?? `the authors of ${name}`)
    return `${name} ${version}\nLicense: ${license}\n\n${textOf(name, license, holder).trim()}\n`
  })
  return `portrait-gate holds parts of these packages.\n\n${parts.join(`\n${'-'.repeat(80)}\n\n`)}`
}

function described(name: string): Described {
  return JSON.parse(readFileSync(join('node_modules', name, 'package.json'), 'utf8'))
}

function textOf(name: string, license: string, holder: string): string {
  const own = ownText(name)
  if (own !== null) return own
  if (license === 'ISC') return ISC(holder)
  const known = TEXTS[license] === undefined ? null : ownText(TEXTS[license])
  if (known === null) throw new Error(`${name} carries no text of its license (${license}); add it here.`)
  return known
}

function ownText(name: string): string | null {
  const folder = join('node_modules', name)
  const files = readdirSync(folder).filter((file) => /^(?:license|notice|copying)/i.test(file))
  return files.length === 0 ? null : files.map((file) => readFileSync(join(folder, file), 'utf8')).join('\n')
}
