// Prefixes by namespace, whatever prefix a packet declares for it. Sources: ISO 16684-1 (rdf, dc, xmp, xmpRights, xmpMM,
// stRef); IPTC Photo Metadata Standard (Iptc4xmpCore, Iptc4xmpExt, photoshop); CIPA DC-010 (exif, exifEX, tiff); PLUS;
// MWG Guidelines 2.0 (mwg-rs); W3C Basic Geo Vocabulary (geo); the XMP tables of ExifTool 13.59 for the others.
const PREFIXES: ReadonlyMap<string, string> = new Map([
  ['http://www.w3.org/XML/1998/namespace', 'xml'],
  ['http://www.w3.org/2000/xmlns/', 'xmlns'],
  ['http://www.w3.org/1999/02/22-rdf-syntax-ns#', 'rdf'],
  ['http://purl.org/dc/elements/1.1/', 'dc'],
  ['http://ns.adobe.com/xap/1.0/', 'xmp'],
  ['http://ns.adobe.com/xap/1.0/rights/', 'xmpRights'],
  ['http://ns.adobe.com/xap/1.0/mm/', 'xmpMM'],
  ['http://ns.adobe.com/xap/1.0/g/img/', 'xmpGImg'],
  ['http://ns.adobe.com/xmp/note/', 'xmpNote'],
  ['http://ns.adobe.com/xap/1.0/sType/ResourceRef#', 'stRef'],
  ['http://ns.adobe.com/photoshop/1.0/', 'photoshop'],
  ['http://ns.adobe.com/camera-raw-settings/1.0/', 'crs'],
  ['http://ns.adobe.com/lightroom/1.0/', 'lr'],
  ['http://ns.adobe.com/tiff/1.0/', 'tiff'],
  ['http://ns.adobe.com/exif/1.0/', 'exif'],
  ['http://ns.adobe.com/exif/1.0/aux/', 'aux'],
  ['http://cipa.jp/exif/1.0/', 'exifEX'],
  ['http://iptc.org/std/Iptc4xmpCore/1.0/xmlns/', 'Iptc4xmpCore'],
  ['http://iptc.org/std/Iptc4xmpExt/2008-02-29/', 'Iptc4xmpExt'],
  ['http://ns.useplus.org/ldf/xmp/1.0/', 'plus'],
  ['http://www.metadataworkinggroup.com/schemas/regions/', 'mwg-rs'],
  ['http://ns.microsoft.com/photo/1.2/', 'MP'],
  ['http://www.dji.com/drone-dji/1.0/', 'drone-dji'],
  ['http://www.w3.org/2003/01/geo/wgs84_pos#', 'geo'],
])

const OURS: ReadonlySet<string> = new Set(PREFIXES.values())

/** Whether a packet declares one of our prefixes for a namespace that is none of ours: a slip or a damage. */
export function isEstranged(prefix: string, namespace: string): boolean {
  return OURS.has(prefix) && !PREFIXES.has(namespace)
}

/** A name in the form `prefix:local`; `{namespace}local` where the namespace is none of ours. */
export function qualified(namespace: string, local: string): string {
  if (namespace === '') return local
  const prefix = PREFIXES.get(namespace)
  return prefix === undefined ? `{${namespace}}${local}` : `${prefix}:${local}`
}
