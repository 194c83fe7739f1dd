import type { FieldId } from '../../measure/schema/metadata-facts.ts'
import type { Labels } from './labels.ts'

type Form = 'text' | 'lang' | 'seq' | 'bag'

/**
 * Properties by field, in the order in which they are written.
 * @source IPTC Photo Metadata Standard 2025.1 (names, forms); ISO 16684-1 (dc, xmpRights); alternative texts of one language are x-default.
 */
const PROPERTIES: readonly (readonly [FieldId, string, Form])[] = [
  ['creator', 'dc:creator', 'seq'],
  ['copyright', 'dc:rights', 'lang'],
  ['title', 'dc:title', 'lang'],
  ['description', 'dc:description', 'lang'],
  ['keywords', 'dc:subject', 'bag'],
  ['headline', 'photoshop:Headline', 'text'],
  ['credit', 'photoshop:Credit', 'text'],
  ['source', 'photoshop:Source', 'text'],
  ['capture-time', 'photoshop:DateCreated', 'text'],
  ['usage-terms', 'xmpRights:UsageTerms', 'lang'],
  ['web-statement', 'xmpRights:WebStatement', 'text'],
  ['alt-text', 'Iptc4xmpCore:AltTextAccessibility', 'lang'],
  ['extended-description', 'Iptc4xmpCore:ExtDescrAccessibility', 'lang'],
  ['person-shown', 'Iptc4xmpExt:PersonInImage', 'bag'],
]

/** Namespaces of what is written. @source ISO 16684-1 and the IPTC Photo Metadata Standard 2025.1. */
const NAMESPACES = {
  dc: 'http://purl.org/dc/elements/1.1/',
  photoshop: 'http://ns.adobe.com/photoshop/1.0/',
  xmpRights: 'http://ns.adobe.com/xap/1.0/rights/',
  xmpMM: 'http://ns.adobe.com/xap/1.0/mm/',
  Iptc4xmpCore: 'http://iptc.org/std/Iptc4xmpCore/1.0/xmlns/',
  Iptc4xmpExt: 'http://iptc.org/std/Iptc4xmpExt/2008-02-29/',
} as const

/** An XMP packet (ISO 16684-1, 7.3) with what a file says of itself. */
export function xmpPacket({ fields, frameName }: Labels): Buffer {
  const properties = PROPERTIES.flatMap(([field, name, form]) => {
    const values = fields[field] ?? []
    return values.length === 0 ? [] : [property(name, form, values)]
  })
  if (frameName !== null) properties.push(property('xmpMM:PreservedFileName', 'text', [frameName]))
  const namespaces = Object.entries(NAMESPACES).map(([prefix, uri]) => `xmlns:${prefix}="${uri}"`)
  return Buffer.from(
    [
      '<?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>',
      '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">',
      `<rdf:Description rdf:about="" ${namespaces.join(' ')}>`,
      ...properties,
      '</rdf:Description></rdf:RDF></x:xmpmeta>',
      '<?xpacket end="w"?>',
    ].join('\n'),
  )
}

function property(name: string, form: Form, values: readonly string[]): string {
  const [first = ''] = values
  const items = values.map((value) => `<rdf:li>${escaped(value)}</rdf:li>`).join('')
  const inner = {
    text: () => escaped(first),
    lang: () => `<rdf:Alt><rdf:li xml:lang="x-default">${escaped(first)}</rdf:li></rdf:Alt>`,
    seq: () => `<rdf:Seq>${items}</rdf:Seq>`,
    bag: () => `<rdf:Bag>${items}</rdf:Bag>`,
  }[form]()
  return `<${name}>${inner}</${name}>`
}

/** Text for XML 1.0, which knows no other control characters than tab and line ends. */
function escaped(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out.
      .replace(/[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]/g, '')
      .replace(/&/g, '&amp;')
      .replace(/</g, '&lt;')
      .replace(/>/g, '&gt;')
  )
}
