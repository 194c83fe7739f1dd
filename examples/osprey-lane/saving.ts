import sharp, { type Sharp } from 'sharp'
import type { Portrait } from '../drawing/portrait.ts'
import type { Sitter } from '../drawing/sitters.ts'
import { adobeRgbProfile, asAdobeRgb } from './adobe-rgb.ts'
import type { Output } from './house-style.ts'
import { withProfile, withThumbnail } from './jpeg-segments.ts'
import { retouched } from './retouching.ts'

/** How a file is written; everything but `jpeg` is a mistake that studios make. */
export type Saving =
  | 'jpeg'
  | 'located'
  | 'undescribed'
  | 'previewed'
  | 'adobe-rgb'
  | 'cmyk'
  | 'sideways'
  | 'png'
  | 'truncated'

/** The bytes of a deliverable. */
export async function saved(
  portrait: Portrait,
  sitter: Sitter,
  output: Output,
  saving: Saving,
): Promise<Buffer> {
  const pixels = await cut(portrait, output)
  const jpeg = { quality: output.quality, chromaSubsampling: output.subsampling }
  const labelled = (image: Sharp): Sharp =>
    image.withExif(exif()).withDensity(output.ppi).withXmp(xmp(sitter))
  switch (saving) {
    case 'jpeg':
      return labelled(opened(pixels, output)).withIccProfile('srgb').jpeg(jpeg).toBuffer()
    case 'located':
      return labelled(opened(pixels, output))
        .withExifMerge(LOCATION)
        .withIccProfile('srgb')
        .jpeg(jpeg)
        .toBuffer()
    case 'undescribed':
      return opened(pixels, output)
        .withExif(exif())
        .withDensity(output.ppi)
        .withXmp(xmp(sitter, false))
        .withIccProfile('srgb')
        .jpeg(jpeg)
        .toBuffer()
    case 'previewed':
      return withThumbnail(
        await labelled(opened(pixels, output)).withIccProfile('srgb').jpeg(jpeg).toBuffer(),
        await wholeFrame(portrait),
      )
    case 'adobe-rgb':
      return withProfile(
        await labelled(opened(asAdobeRgb(pixels), output))
          .jpeg(jpeg)
          .toBuffer(),
        adobeRgbProfile(),
      )
    case 'cmyk':
      return labelled(opened(pixels, output)).toColourspace('cmyk').jpeg(jpeg).toBuffer()
    case 'sideways':
      return labelled(opened(pixels, output).rotate(-90))
        .withMetadata({ orientation: 6 })
        .withIccProfile('srgb')
        .jpeg(jpeg)
        .toBuffer()
    case 'png':
      return labelled(opened(pixels, output)).withIccProfile('srgb').png({ compressionLevel: 9 }).toBuffer()
    case 'truncated': {
      const whole = await labelled(opened(pixels, output)).withIccProfile('srgb').jpeg(jpeg).toBuffer()
      return whole.subarray(0, Math.floor(whole.length * 0.6))
    }
  }
}

// A place in the open sea, 0 degrees north and east: nobody's home.
const LOCATION = {
  IFD3: {
    GPSLatitudeRef: 'N',
    GPSLatitude: '0/1 0/1 0/1',
    GPSLongitudeRef: 'E',
    GPSLongitude: '0/1 0/1 0/1',
  },
}

async function cut(portrait: Portrait, output: Output): Promise<Buffer> {
  const { pixels, widthPx, heightPx } = portrait
  const { crop, retouch } = output
  const image = sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } }).extract(crop)
  const sized = crop.width === output.widthPx ? image : image.resize(output.widthPx, output.heightPx)
  const cropped = await sized.raw().toBuffer()
  const turned = output.turnedDeg === undefined ? cropped : await turnedBy(output.turnedDeg, cropped, output)
  if (retouch === undefined) return turned
  const scale = output.widthPx / crop.width
  const placed = ({ x, y }: { readonly x: number; readonly y: number }) =>
    [(x * widthPx - crop.left) * scale, (y * heightPx - crop.top) * scale] as const
  return retouched(
    { pixels: turned, widthPx: output.widthPx, heightPx: output.heightPx, placed },
    portrait,
    retouch,
  )
}

/** Rotated about its middle in a canvas of the same size. */
async function turnedBy(degrees: number, pixels: Buffer, output: Output): Promise<Buffer> {
  const { widthPx, heightPx } = output
  const { data, info } = await opened(pixels, output)
    .rotate(degrees, { background: '#fff' })
    .raw()
    .toBuffer({ resolveWithObject: true })
  const { width, height, channels } = info
  return sharp(data, { raw: { width, height, channels } })
    .extract({
      left: Math.round((width - widthPx) / 2),
      top: Math.round((height - heightPx) / 2),
      width: widthPx,
      height: heightPx,
    })
    .raw()
    .toBuffer()
}

/** A thumbnail of the picture before the crop. */
async function wholeFrame({ pixels, widthPx, heightPx }: Portrait) {
  const { data, info } = await sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .resize(160, 160, { fit: 'inside' })
    .jpeg({ quality: 80 })
    .toBuffer({ resolveWithObject: true })
  return { jpeg: data, width: info.width, height: info.height }
}

function opened(pixels: Buffer, { widthPx, heightPx }: Output): Sharp {
  return sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } })
}

function exif(): Record<string, Record<string, string>> {
  return { IFD0: { Artist: 'Osprey Lane in-house studio', Copyright: 'Osprey Lane Veterinary Group' } }
}

/** IPTC photo metadata: creator, rights, person shown and a description for those who can't see the picture. */
function xmp({ family, given }: Sitter, described = true): string {
  const name = `${given} ${family}`
  return [
    '<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?><x:xmpmeta xmlns:x="adobe:ns:meta/">',
    '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about=""',
    ' xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:Iptc4xmpCore="http://iptc.org/std/Iptc4xmpCore/1.0/xmlns/"',
    ' xmlns:Iptc4xmpExt="http://iptc.org/std/Iptc4xmpExt/2008-02-29/">',
    '<dc:creator><rdf:Seq><rdf:li>Osprey Lane in-house studio</rdf:li></rdf:Seq></dc:creator>',
    '<dc:rights><rdf:Alt><rdf:li xml:lang="x-default">Osprey Lane Veterinary Group</rdf:li></rdf:Alt></dc:rights>',
    `<Iptc4xmpExt:PersonInImage><rdf:Bag><rdf:li>${name}</rdf:li></rdf:Bag></Iptc4xmpExt:PersonInImage>`,
    described
      ? `<Iptc4xmpCore:AltTextAccessibility><rdf:Alt><rdf:li xml:lang="x-default">Portrait of ${name}</rdf:li></rdf:Alt></Iptc4xmpCore:AltTextAccessibility>`
      : '',
    '</rdf:Description></rdf:RDF></x:xmpmeta><?xpacket end="w"?>',
  ].join('')
}
