import { extname } from 'node:path'

/** What a file is to a delivery, by its name alone; pictures are judged whatever is in them. */
export type FileKind = 'picture' | 'sidecar' | 'hidden' | 'other'

// Formats that are refused later are on the list too: a photographer's camera file must fail with a
// sentence, not be passed over.
const PICTURES = new Set(
  [
    'jpg jpeg jpe jfif jif pjpeg pjp mpo jps png apng tif tiff webp gif bmp dib heic heif hif avif jxl jp2 j2k jpf jpx svg psd psb',
    'tga exr hdr dng raw cr2 cr3 crw nef nrw arw srf sr2 raf orf rw2 pef rwl srw x3f 3fr fff iiq erf mef mos kdc dcr',
  ].flatMap((line) => line.split(' ')),
)

// Files that editors, cameras, spreadsheets and systems put beside pictures.
const SIDECARS = new Set('xmp aae json yaml yml csv tsv txt md html htm pdf xml log ini db lnk'.split(' '))
const SYSTEM_FILES = new Set(['thumbs.db', 'ehthumbs.db', 'desktop.ini', 'icon\r'])

// Windows drops these, and what is left is the name of a picture there.
const DROPPED = /[. ]+$/

export function fileKind(name: string): FileKind {
  if (isHidden(name)) return 'hidden'
  const extension = extname(name.replace(DROPPED, '')).slice(1).toLowerCase()
  if (PICTURES.has(extension)) return 'picture'
  return SIDECARS.has(extension) || SYSTEM_FILES.has(name.toLowerCase()) ? 'sidecar' : 'other'
}

/** Dot-files and dot-folders, and the folder that macOS adds to ZIP archives. */
export function isHidden(name: string): boolean {
  return name.startsWith('.') || name === '__MACOSX'
}
