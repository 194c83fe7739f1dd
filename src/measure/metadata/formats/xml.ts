import { SaxesParser } from 'saxes'
import { qualified } from './namespaces.ts'

export interface XmlElement {
  /** `prefix:local`, see {@link qualified}. */
  readonly name: string
  readonly attributes: ReadonlyMap<string, string>
  readonly children: readonly XmlElement[]
  /** Its own text, its children's left out. */
  readonly text: string
}

interface OpenElement extends XmlElement {
  readonly children: XmlElement[]
  text: string
}

/** Most elements and attributes read. @choice no source: a picture's metadata with its whole history of edits has some thousands. */
const MAX_NODES = 50_000

/** Deepest nesting read. @choice no source: a picture's metadata is a dozen deep. */
const MAX_DEPTH = 64

/** Longest namespace, characters. @choice no source: every name below is told with it, so a long one with many names would fill the memory. */
const MAX_NAMESPACE = 1000

/**
 * Reads an XML document into a tree. The parser knows no entities but XML's own five, so none can multiply.
 * @throws Error when the document is not well-formed, has a document type, or more than 50,000 elements and attributes,
 *   64 levels or a namespace of more than 1,000 characters
 */
export function parseXml(document: string): XmlElement {
  const parser = new SaxesParser({ xmlns: true })
  const open: OpenElement[] = []
  let root: XmlElement | undefined
  let nodes = 0
  const counted = () => {
    if (++nodes > MAX_NODES) throw new Error(`more than ${MAX_NODES} elements and attributes`)
  }
  parser.on('error', (error) => {
    throw error
  })
  parser.on('doctype', () => {
    throw new Error('a document type declaration')
  })
  parser.on('attribute', ({ prefix, local, value }) => {
    counted()
    if ((prefix === 'xmlns' || local === 'xmlns') && value.length > MAX_NAMESPACE)
      throw new Error(`a namespace of more than ${MAX_NAMESPACE} characters`)
  })
  parser.on('opentag', ({ uri, local, attributes }) => {
    counted()
    if (open.length === MAX_DEPTH) throw new Error(`more than ${MAX_DEPTH} levels`)
    const pairs = Object.values(attributes).map((one) => [qualified(one.uri, one.local), one.value] as const)
    const element: OpenElement = {
      name: qualified(uri, local),
      attributes: new Map(pairs),
      children: [],
      text: '',
    }
    open.at(-1)?.children.push(element)
    root ??= element
    open.push(element)
  })
  parser.on('closetag', () => open.pop())
  const addText = (text: string) => {
    const element = open.at(-1)
    if (element) element.text += text
  }
  parser.on('text', addText)
  parser.on('cdata', addText)
  parser.write(document).close()
  if (!root) throw new Error('no element')
  return root
}
