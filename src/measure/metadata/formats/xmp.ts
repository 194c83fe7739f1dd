import { isEstranged } from './namespaces.ts'
import { parseXml, type XmlElement } from './xml.ts'

/** A value of the XMP data model (ISO 16684-1, 6.3): a text, an array of items, or a structure of fields. */
export interface XmpValue {
  readonly text: string
  /** Of `xml:lang`, which tells the alternatives of a text apart. */
  readonly language: string | null
  readonly items: readonly XmpValue[]
  readonly fields: ReadonlyMap<string, XmpValue>
}

export interface Xmp {
  /** Top-level properties by name, such as `dc:creator`. */
  readonly properties: ReadonlyMap<string, XmpValue>
  /** Names of all properties and fields that hold something, however deep. */
  readonly names: ReadonlySet<string>
  /**
   * There is no description in it, or it uses a known prefix for an unknown namespace: readers that go by the prefix find
   * what is not found here.
   */
  readonly damaged: boolean
}

const XMLNS = 'xmlns:'
const NOTHING: XmpValue = { text: '', language: null, items: [], fields: new Map() }
const ARRAYS = ['rdf:Bag', 'rdf:Seq', 'rdf:Alt']

/**
 * Reads an XMP packet: the RDF/XML forms that ISO 16684-1, 7 allows.
 * @throws Error when it is not well-formed XML or larger than {@link parseXml} takes
 */
export function readXmp(packet: Buffer): Xmp {
  const root = parseXml(textOf(packet))
  const rdf = root.name === 'rdf:RDF' ? root : root.children.find(({ name }) => name === 'rdf:RDF')
  const properties = new Map<string, XmpValue>()
  const names = new Set<string>()
  for (const description of rdf?.children ?? []) {
    for (const [name, value] of structure(description).fields) {
      if (collectNames(name, value, names) && !properties.has(name)) properties.set(name, value)
    }
  }
  return { properties, names, damaged: rdf === undefined || hasEstranged(root) }
}

function hasEstranged({ attributes, children }: XmlElement): boolean {
  const declared = [...attributes].filter(([name]) => name.startsWith(XMLNS))
  return (
    declared.some(([name, namespace]) => isEstranged(name.slice(XMLNS.length), namespace)) ||
    children.some(hasEstranged)
  )
}

/** The texts of a property, one for each item of an array. */
export function xmpTexts({ properties }: Xmp, name: string): string[] {
  return textsOf(properties.get(name) ?? NOTHING)
}

export function textsOf(value: XmpValue): string[] {
  const texts = value.items.length > 0 ? value.items.map(({ text }) => text) : [value.text]
  return texts.filter((text) => text.trim() !== '')
}

/** One text of a property: of a text in several languages the default one, else the first that is not blank. */
export function xmpText({ properties }: Xmp, name: string): string | null {
  return oneText(properties.get(name) ?? NOTHING)
}

export function oneText(value: XmpValue): string | null {
  const filled = value.items.filter(({ text }) => text.trim() !== '')
  const item = filled.find(({ language }) => language === 'x-default') ?? filled[0]
  return item?.text ?? (value.text.trim() === '' ? null : value.text)
}

/** ISO 16684-1, 7.1: UTF-8, or where not embedded UTF-16 with a byte order mark. Files are padded with NULs at times. */
function textOf(packet: Buffer): string {
  const mark = packet.toString('latin1', 0, 2)
  const encoding = mark === '\xff\xfe' ? 'utf-16le' : mark === '\xfe\xff' ? 'utf-16be' : 'utf-8'
  const text = new TextDecoder(encoding).decode(packet)
  let end = text.length
  while (end > 0 && text.charCodeAt(end - 1) === 0) end--
  return text.slice(0, end).trim()
}

/** A property element or an item. */
function propertyValue(element: XmlElement): XmpValue {
  const { attributes, children, text } = element
  const language = attributes.get('xml:lang') ?? null
  const [child] = children
  if (attributes.get('rdf:parseType') === 'Resource') return { ...structure(element), language }
  if (child && ARRAYS.includes(child.name)) {
    return { ...NOTHING, language, items: child.children.map(propertyValue) }
  }
  if (child) return { ...structure(child), language }
  const resource = attributes.get('rdf:resource')
  if (resource !== undefined) return { ...NOTHING, language, text: resource }
  const { fields } = structure(element)
  return { text, language, items: [], fields }
}

/** The fields of a node; one that has an `rdf:value` is that value, its other fields are qualifiers. */
function structure({ attributes, children }: XmlElement): XmpValue {
  const fields = new Map<string, XmpValue>()
  for (const [name, text] of attributes) {
    if (isField(name)) fields.set(name, { ...NOTHING, text })
  }
  for (const child of children) fields.set(child.name, propertyValue(child))
  const value = fields.get('rdf:value')
  return value ? { ...value, fields } : { ...NOTHING, fields }
}

function isField(name: string): boolean {
  return name === 'rdf:value' || (name.includes(':') && !/^(rdf|xml|xmlns):/.test(name))
}

/** Adds a name and those below it; whether there is a text anywhere. */
function collectNames(name: string, value: XmpValue, names: Set<string>): boolean {
  let filled = value.text.trim() !== ''
  for (const item of value.items) filled = collectNames(name, item, names) || filled
  for (const [field, inner] of value.fields) filled = collectNames(field, inner, names) || filled
  if (filled) names.add(name)
  return filled
}
