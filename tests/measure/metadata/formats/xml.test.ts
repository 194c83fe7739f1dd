import { describe, expect, test } from 'vitest'
import { parseXml } from '../../../../src/measure/metadata/formats/xml.ts'

const DC = 'http://purl.org/dc/elements/1.1/'

describe('documents', () => {
  test('names by namespace, whatever the prefix', () => {
    const root = parseXml(`<a:title xmlns:a="${DC}" a:x="1" y="2">t<b xmlns="urn:own"/></a:title>`)
    expect(root.name).toBe('dc:title')
    expect(root.attributes.get('dc:x')).toBe('1')
    expect(root.attributes.get('y')).toBe('2')
    expect(root.children.map(({ name }) => name)).toEqual(['{urn:own}b'])
  })

  // XML 1.0, 4.6 (predefined entities), 4.1 (character references) and 2.7 (CDATA).
  test('references and CDATA', () => {
    expect(parseXml('<a>&lt;&amp;&#x41;&#66;<![CDATA[<c>]]></a>').text).toBe('<&AB<c>')
  })
})

describe('refused', () => {
  const bomb = `<!DOCTYPE a [<!ENTITY a0 "ha"> ${Array.from({ length: 20 }, (_, n) => `<!ENTITY a${n + 1} "&a${n};&a${n};">`).join('')}]><a>&a20;</a>`
  test.each([
    ['entities that double twenty times', bomb],
    ['an external entity', '<!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/passwd">]><a>&x;</a>'],
    ['a document type alone', '<!DOCTYPE a><a/>'],
    ['an unknown entity', '<a>&nbsp;</a>'],
    ['a NUL', '<a>x\0y</a>'],
    ['an unclosed element', '<a><b></a>'],
    ['an unbound prefix', '<q:a/>'],
    ['an attribute twice', '<a b="1" b="2"/>'],
    ['nothing', ''],
    ['text alone', 'hello'],
  ])('%s', (_, document) => expect(() => parseXml(document)).toThrow())
})

describe('more than is read of any packet is refused', () => {
  test.each([
    ['a million elements', `<r>${'<a/>'.repeat(1_000_000)}</r>`],
    ['a million levels', '<a>'.repeat(1_000_000)],
    ['100,000 attributes', `<a ${Array.from({ length: 100_000 }, (_, n) => `a${n}="1"`).join(' ')}/>`],
    ['a million brackets', '<'.repeat(1_000_000)],
    ['a name of a million letters', `<${'a'.repeat(1_000_000)}`],
    ['a namespace of 400,000 letters', `<r xmlns:a="${'x'.repeat(400_000)}">${'<a:b/>'.repeat(40_000)}</r>`],
    ['the same as the default', `<r xmlns="${'x'.repeat(400_000)}">${'<b/>'.repeat(40_000)}</r>`],
    ['a comment without end', `<a><!--${'x'.repeat(1_000_000)}`],
  ])('%s', (_, document) => {
    expect(() => parseXml(document)).toThrow()
  })

  test('just within the bounds it is read', () => {
    expect(parseXml(`<r>${'<a/>'.repeat(49_999)}</r>`).children).toHaveLength(49_999)
    expect(parseXml(`${'<a>'.repeat(64)}${'</a>'.repeat(64)}`).name).toBe('a')
    expect(() => parseXml(`${'<a>'.repeat(65)}${'</a>'.repeat(65)}`)).toThrow(/64 levels/)
  })
})
