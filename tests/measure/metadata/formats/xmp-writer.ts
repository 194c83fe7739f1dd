const NAMESPACES: Readonly<Record<string, string>> = {
  dc: 'http://purl.org/dc/elements/1.1/',
  xmp: 'http://ns.adobe.com/xap/1.0/',
  xmpRights: 'http://ns.adobe.com/xap/1.0/rights/',
  xmpMM: 'http://ns.adobe.com/xap/1.0/mm/',
  xmpGImg: 'http://ns.adobe.com/xap/1.0/g/img/',
  stRef: 'http://ns.adobe.com/xap/1.0/sType/ResourceRef#',
  photoshop: 'http://ns.adobe.com/photoshop/1.0/',
  crs: 'http://ns.adobe.com/camera-raw-settings/1.0/',
  tiff: 'http://ns.adobe.com/tiff/1.0/',
  exif: 'http://ns.adobe.com/exif/1.0/',
  aux: 'http://ns.adobe.com/exif/1.0/aux/',
  Iptc4xmpCore: 'http://iptc.org/std/Iptc4xmpCore/1.0/xmlns/',
  Iptc4xmpExt: 'http://iptc.org/std/Iptc4xmpExt/2008-02-29/',
}

/** A packet with the property elements given, in its wrapper (ISO 16684-1, 7.3). */
export function packet(properties: string, attributes = ''): Buffer {
  const declared = Object.entries(NAMESPACES).map(([prefix, uri]) => ` xmlns:${prefix}="${uri}"`)
  return Buffer.from(
    `<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about=""${declared.join('')} ${attributes}>${properties}</rdf:Description>
</rdf:RDF></x:xmpmeta>
<?xpacket end="w"?>`,
    'utf8',
  )
}

const array = (kind: string, name: string, items: readonly string[]) =>
  `<${name}><rdf:${kind}>${items.map((item) => `<rdf:li>${item}</rdf:li>`).join('')}</rdf:${kind}></${name}>`

export const seq = (name: string, ...items: readonly string[]) => array('Seq', name, items)
export const bag = (name: string, ...items: readonly string[]) => array('Bag', name, items)

/** A text in languages. */
export function alt(name: string, texts: Readonly<Record<string, string>>): string {
  const items = Object.entries(texts).map(
    ([language, text]) => `<rdf:li xml:lang="${language}">${text}</rdf:li>`,
  )
  return `<${name}><rdf:Alt>${items.join('')}</rdf:Alt></${name}>`
}

/** Payload of an APP1 segment. */
export const xmpSegment = (xmp: Buffer) =>
  Buffer.concat([Buffer.from('http://ns.adobe.com/xap/1.0/\0', 'latin1'), xmp])
