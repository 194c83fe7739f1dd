import { exifText } from '../file/exif/exif.ts'
import { clipped, clippedList } from '../file/exif/text.ts'
import type { Origin } from '../schema/metadata-facts.ts'
import type { Blocks } from './blocks/blocks.ts'
import { oneText, textsOf, type Xmp, xmpText, xmpTexts } from './formats/xmp.ts'

/** Tag of ImageNumber. @source TIFF/EP (ISO 12234-2). */
const IMAGE_NUMBER = 0x9211
/** Tag of ImageUniqueID. @source CIPA DC-008 (Exif), 4.6.5 H. */
const IMAGE_UNIQUE_ID = 0xa420

export function originOf({ exif, xmp }: Blocks): Origin {
  const first = (name: string) => oneOf(xmp.map((packet) => xmpText(packet, name)))
  const numbers = exif.map((block) => block.exif?.numbers(IMAGE_NUMBER)?.[0]?.toString() ?? null)
  const unique = exif.map((block) => exifText(block.exif, IMAGE_UNIQUE_ID))
  return {
    rawFileName: first('crs:RawFileName'),
    preservedFileName: first('xmpMM:PreservedFileName'),
    documentId: first('xmpMM:DocumentID'),
    originalDocumentId: first('xmpMM:OriginalDocumentID'),
    derivedFrom: clippedList(xmp.flatMap(derivedFrom)),
    ancestors: clippedList(xmp.flatMap((packet) => xmpTexts(packet, 'photoshop:DocumentAncestors'))),
    imageNumber: oneOf([...numbers, ...xmp.map((packet) => xmpText(packet, 'aux:ImageNumber'))]),
    imageUniqueId: oneOf(unique),
  }
}

/** A structure of references (ISO 16684-1, 8.2.2.6), or in old files one text. */
function derivedFrom({ properties }: Xmp): string[] {
  const value = properties.get('xmpMM:DerivedFrom')
  if (!value) return []
  const ids = ['stRef:documentID', 'stRef:originalDocumentID', 'stRef:instanceID'].map((name) => {
    const field = value.fields.get(name)
    return (field && oneText(field)) ?? ''
  })
  return [...textsOf(value), ...ids]
}

function oneOf(texts: readonly (string | null)[]): string | null {
  const text = texts.find((one) => one !== null)
  return text == null ? null : clipped(text)
}
