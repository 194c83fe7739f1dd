import sharp, { type Sharp } from 'sharp'
import { adobeRgbProfile, asAdobeRgb } from '../../../examples/osprey-lane/adobe-rgb.ts'
import { withProfile, withThumbnail } from '../../../examples/osprey-lane/jpeg-segments.ts'

/** What is written into a file beside its pixels. */
export interface Labels {
  readonly creator: string
  readonly copyright: string
  readonly altText: string | null
  /** Name of the camera's file. */
  readonly rawName: string | null
}

/** How pixels are saved. */
export interface Saving {
  readonly labels: Labels
  readonly ppi: number | null
  readonly quality: number
  readonly subsampling: string
  readonly progressive?: boolean
  readonly format?: 'jpeg' | 'png'
  readonly colorSpace?: 'sRGB' | 'Adobe RGB (1998)' | 'Display P3' | 'gray'
  /** Written as coordinates in the open sea, 0 degrees north and east: nobody's home. */
  readonly located?: boolean
  /** Stored turned, with a tag that says so. */
  readonly onItsSide?: boolean
  /** A picture of which a thumbnail is left in the file. */
  readonly thumbnailOf?: Buffer
}

/** Pixels as a file. */
export async function saved(pixels: Sharp, saving: Saving): Promise<Buffer> {
  const {
    labels,
    ppi,
    quality,
    subsampling,
    progressive = false,
    format = 'jpeg',
    onItsSide = false,
  } = saving
  const { data, info } = await pixels.removeAlpha().raw().toBuffer({ resolveWithObject: true })
  const { width, height } = info
  const isAdobe = saving.colorSpace === 'Adobe RGB (1998)'
  const raw = { width, height, channels: 3 as const }
  const image = sharp(isAdobe ? asAdobeRgb(data) : data, { raw })
    .rotate(onItsSide ? -90 : 0)
    .withExif({ IFD0: { Artist: labels.creator, Copyright: labels.copyright }, ...(saving.located && SEA) })
    .withXmp(xmp(labels))
  if (onItsSide) image.withMetadata({ orientation: 6 })
  if (ppi !== null) image.withDensity(ppi)
  if (saving.colorSpace === 'gray') image.toColourspace('b-w').withIccProfile('srgb')
  else if (!isAdobe) image.withIccProfile(saving.colorSpace === 'Display P3' ? 'p3' : 'srgb')
  if (format === 'png') return image.png().toBuffer()
  const jpeg = await image.jpeg({ quality, chromaSubsampling: subsampling, progressive }).toBuffer()
  if (isAdobe) return withProfile(jpeg, adobeRgbProfile())
  return saving.thumbnailOf ? withThumbnail(jpeg, await thumbnail(saving.thumbnailOf)) : jpeg
}

async function thumbnail(picture: Buffer) {
  const small = sharp(picture).resize(160, 160, { fit: 'inside' }).jpeg({ quality: 80 })
  const { data, info } = await small.toBuffer({ resolveWithObject: true })
  return { jpeg: data, width: info.width, height: info.height }
}

const SEA = {
  IFD3: {
    GPSLatitudeRef: 'N',
    GPSLatitude: '0/1 0/1 0/1',
    GPSLongitudeRef: 'E',
    GPSLongitude: '0/1 0/1 0/1',
  },
}

function xmp({ creator, copyright, altText, rawName }: Labels): string {
  const text = (element: string, value: string) =>
    `<${element}><rdf:Alt><rdf:li xml:lang="x-default">${value}</rdf:li></rdf:Alt></${element}>`
  return [
    '<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?><x:xmpmeta xmlns:x="adobe:ns:meta/">',
    '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about=""',
    ' xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:crs="http://ns.adobe.com/camera-raw-settings/1.0/"',
    ' xmlns:Iptc4xmpCore="http://iptc.org/std/Iptc4xmpCore/1.0/xmlns/">',
    `<dc:creator><rdf:Seq><rdf:li>${creator}</rdf:li></rdf:Seq></dc:creator>`,
    text('dc:rights', copyright),
    altText === null ? '' : text('Iptc4xmpCore:AltTextAccessibility', altText),
    rawName === null ? '' : `<crs:RawFileName>${rawName}</crs:RawFileName>`,
    '</rdf:Description></rdf:RDF></x:xmpmeta><?xpacket end="w"?>',
  ].join('')
}
