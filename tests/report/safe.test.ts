import { marked } from 'marked'
import { SaxesParser } from 'saxes'
import { describe, expect, test } from 'vitest'
import {
  forCsv,
  forHtml,
  forJson,
  forMarkdown,
  forTerminal,
  forWorkflowOutput,
} from '../../src/report/safe.ts'
import { logCommands } from '../action/runner/log-commands.ts'

test('ordinary names stay as they are', () => {
  for (const name of [
    'print/Lindqvist-Åsa_00125.jpg',
    'Zoë',
    '長い名前',
    '👩🏽‍🔧',
    'می‌خواهم',
    'headroom: 4.1 %',
  ])
    expect(forTerminal(name)).toBe(name)
})

test.each([
  ['escape', '\u001b[31m', '<U+001B>[31m'],
  ['one-byte CSI', '\u009b31m', '<U+009B>31m'],
  ['line break', 'a\nb\r\n', 'a<U+000A>b<U+000D><U+000A>'],
  ['tab, bell, delete, nul', '\t\u0007\u007f\0', '<U+0009><U+0007><U+007F><U+0000>'],
  // Unicode UAX #9, explicit directional formatting characters.
  ['override', 'gpj\u202e.exe', 'gpj<U+202E>.exe'],
  ['isolates and marks', '\u2066\u2069\u200f\u061c', '<U+2066><U+2069><U+200F><U+061C>'],
  ['zero-width space and byte order mark', '\u200b\ufeff', '<U+200B><U+FEFF>'],
  ['line separators', '\u2028\u2029', '<U+2028><U+2029>'],
  ['lone surrogate', 'a\ud83d', 'a<U+D83D>'],
  ['tag characters', '\u{e0041}', '<U+E0041>'],
])('%s is made visible', (_, text, shown) => {
  expect(forTerminal(text)).toBe(shown)
  expect(forTerminal(forTerminal(text))).toBe(shown)
})

const HOSTILE = [
  'a | b \\| c',
  '`code` ``two``',
  '<script>alert(1)</script>',
  '<img src=x onerror=alert(1)>',
  '![x](http://e.example/x.png)',
  '[click](javascript:alert(1))',
  '**bold** __bold__ _it_ *it* ~~gone~~',
  '&lt;b&gt; &amp; &#64;',
  'see https://evil.example and www.evil.example',
  'mail me@evil.example',
  '$x^2$ [ref][1] <!-- hidden -->',
  '\\',
  'line\nbreak\r\n| a | b |',
]

// GitHub Flavored Markdown as another implementation reads it: npm marked.
describe.each(HOSTILE)('%j', (text) => {
  const html = marked.parse(`| name |\n| --- |\n| ${forMarkdown(text)} |`, { async: false })

  test('stays one cell without any markup', () => {
    expect(html.match(/<td>/g)).toHaveLength(1)
    const cell = /<td>(.*)<\/td>/s.exec(html)?.[1] ?? ''
    expect(cell).not.toMatch(/[<>]/)
    expect(unescapeHtml(cell).replaceAll('\u200b', '')).toBe(forTerminal(text))
  })
})

test('nobody is mentioned and no issue is linked', () => {
  expect(forMarkdown('@octocat #12')).toBe('@\u200boctocat #\u200b12')
  expect(forMarkdown('#e6e6e6')).toBe('#e6e6e6')
})

test('JSON stays the same value and shows no tricky character', () => {
  const value = { name: 'a\u001b\u009b\u202e\u2028\u{e0041}\ud83d\n"\\', more: ['👩🏽‍🔧', 'Å'] }
  const text = forJson(JSON.stringify(value, null, 2))
  expect(JSON.parse(text)).toEqual(value)
  expect(text).not.toMatch(/[^\P{C}\n\u200d]|[\u2028\u2029]/u)
  expect(text).toContain('Å')
})

function unescapeHtml(text: string): string {
  return text
    .replace(/&#(\d+);/g, (_, code: string) => String.fromCharCode(Number(code)))
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&')
}

describe('HTML and XML', () => {
  test.each(HOSTILE)('%j is text to a reader of XML and stays in its attribute', (text) => {
    const seen: string[] = []
    const parser = new SaxesParser()
    parser.on('opentag', ({ name, attributes }) => seen.push(name, ...Object.values(attributes).map(String)))
    parser.on('text', (read) => seen.push(read))
    parser.on('error', (error) => {
      throw error
    })
    parser.write(`<p title="${forHtml(text)}">${forHtml(text)}</p>`).close()
    const shown = forTerminal(text)
    expect(seen).toEqual(['p', shown, ...(shown === '' ? [] : [shown])])
  })

  test('noncharacters that XML forbids are written out', () => {
    expect(forHtml('a\ufffe\uffff')).toBe('a&lt;U+FFFE&gt;&lt;U+FFFF&gt;')
  })

  test('both kinds of quotes', () => {
    expect(forHtml(`"'`)).toBe('&quot;&#39;')
  })
})

test('CSV: always quoted, quotes doubled, formulas made text', () => {
  expect(forCsv('Åsa, "Z"')).toBe('"Åsa, ""Z"""')
  expect(forCsv('=1')).toBe(`"'=1"`)
  expect(forCsv(' @x')).toBe(`"' @x"`)
  expect(forCsv('a=1')).toBe('"a=1"')
})

describe("output in a workflow's log", () => {
  // Read by the rules of the runner: tests/action/runner/log-commands.ts.
  const COMMANDS = [
    '::error::x',
    '  ::set-output name=a::b',
    '\u00a0::add-mask::x',
    'a ##[error]x',
    '###[add-mask]x',
  ]

  test('holds no command, whatever names are in it', () => {
    const text = COMMANDS.map((command) => `${command}\nfine\n`).join('')
    expect(logCommands(text).length).toBe(COMMANDS.length)
    expect(logCommands(forWorkflowOutput(text))).toEqual([])
  })

  test('holds no command in JSON either, which stays what it is', () => {
    const value = { names: COMMANDS, nested: [{ '##[error]': '::error::x' }] }
    const json = forJson(JSON.stringify(value, null, 2))
    expect(forWorkflowOutput(json)).toBe(json)
    expect(logCommands(json)).toEqual([])
    expect(JSON.parse(json)).toEqual(value)
  })

  test('is otherwise as it was', () => {
    const text = 'brand.yaml:3:7: a::b and # [x] ## [y]\n\u001b[31mred\u001b[0m :: \n'
    expect(forWorkflowOutput(text)).toBe(text)
  })
})
