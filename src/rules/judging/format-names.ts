/** The formats that can be measured, with their names and the extensions that fit them, the usual one first. */
export const FORMATS = {
  jpeg: { name: 'JPEG', extensions: ['jpg', 'jpeg', 'jpe', 'jfif'] },
  png: { name: 'PNG', extensions: ['png'] },
  tiff: { name: 'TIFF', extensions: ['tif', 'tiff'] },
  webp: { name: 'WebP', extensions: ['webp'] },
  avif: { name: 'AVIF', extensions: ['avif'] },
} as const
export type FormatId = keyof typeof FORMATS

export function isFormat(id: string): id is FormatId {
  return Object.hasOwn(FORMATS, id)
}

const OTHER_NAMES: ReadonlyMap<string, string> = new Map([
  ['raw', 'camera raw'],
  ['jxl', 'JPEG XL'],
  ['jp2', 'JPEG 2000'],
  ['psd', 'PSD (layered)'],
  ['animated-webp', 'an animated WebP'],
  ['animated-png', 'an animated PNG'],
  ['animated-avif', 'an AVIF image sequence'],
])

/** A format as people write it: "JPEG" for jpeg, "HEIC" for heic. */
export function formatName(id: string): string {
  return isFormat(id) ? FORMATS[id].name : (OTHER_NAMES.get(id) ?? id.toUpperCase())
}

/** The format that an extension (without its dot) stands for; the extension in small letters when that is none of them. */
export function formatOfExtension(extension: string): string {
  const small = extension.toLowerCase()
  const ids = Object.keys(FORMATS).filter(isFormat)
  return ids.find((id) => FORMATS[id].extensions.some((fit) => fit === small)) ?? small
}
