import exifr from 'exifr'
import { qualified } from '../../src/measure/metadata/formats/namespaces.ts'

const DIRECTORIES = { ifd0: 'main', exif: 'exif', gps: 'gps', ifd1: 'thumbnail' } as const
/** Blocks of its output that hold no metadata fields, or none that are read here. */
const OTHER_BLOCKS = ['interop', 'makerNote', 'userComment', 'rdf', 'errors']
/** Numbers of the PNG header, a profile's name, coordinates worked out from four tags, and a binary number of IIM. */
const OTHER_NAMES = /^ihdr (?:\d+|ProfileName)$|^gps (?:latitude|longitude)$|^iptc 0$/
const OPTIONS = {
  ...{ tiff: true, exif: true, gps: true, ifd1: true, iptc: true, xmp: true },
  ...{ makerNote: true, userComment: true },
  // Tags by number and values as they stand in the file; every block by itself, XMP with its extended packets.
  ...{ translateKeys: false, translateValues: false, reviveValues: false, sanitize: false },
  ...{ mergeOutput: false, multiSegment: true },
}

/** What the library exifr reads of Exif, IPTC-IIM, XMP and PNG text, by places named as in `ownFields`. */
export async function exifrFields(content: Buffer): Promise<Map<string, string>> {
  const blocks: Record<string, object> = (await exifr.parse(content, OPTIONS)) ?? {}
  const fields = new Map<string, string>()
  for (const [block, values] of Object.entries(blocks)) {
    if (OTHER_BLOCKS.includes(block)) continue
    for (const [name, value] of Object.entries(values)) {
      if (OTHER_NAMES.test(`${block} ${name}`)) continue
      for (const [place, text] of leaves(placeOf(content, block, name), value)) fields.set(place, text)
    }
  }
  return fields
}

function placeOf(content: Buffer, block: string, name: string): string {
  if (block === 'iptc') return `IPTC 2:${name}`
  if (block in DIRECTORIES && /^\d+$/.test(name))
    return `EXIF ${DIRECTORIES[block as keyof typeof DIRECTORIES]} ${name}`
  if (block === 'ihdr') return `PNG text ${name}`
  // It puts the XMP properties of tiff: and exif: beside the tags of the Exif directories.
  const prefix = block === 'ifd0' ? 'tiff' : block
  const [, namespace = ''] =
    new RegExp(`xmlns:${prefix}=["'](.*?)["']`).exec(content.toString('latin1')) ?? []
  return `XMP ${qualified(namespace, name)}`
}

/** The texts below a value, by their path; none of a value without content. */
function leaves(path: string, value: unknown): [string, string][] {
  if (value === undefined || value === null) return []
  if (ArrayBuffer.isView(value)) return leaves(path, Array.from(value as Uint8Array))
  if (Array.isArray(value)) {
    if (value.every((one) => typeof one === 'number')) return [[path, value.join(' ')]]
    return value.flatMap((one, n) => leaves(value.length === 1 ? path : `${path}[${n}]`, one))
  }
  if (typeof value !== 'object') return [[path, String(value).trim()]]
  // The qualifier of a language, and an address in an attribute.
  if ('lang' in value && 'value' in value) return leaves(path, value.value)
  if ('resource' in value) return leaves(path, value.resource)
  return Object.entries(value).flatMap(([name, one]) => leaves(`${path}/${name}`, one))
}
