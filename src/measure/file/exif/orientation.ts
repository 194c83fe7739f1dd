import { readDirectory } from '../bytes/tiff.ts'

/** Whether a picture is stored on its side, by its orientation tag; upright without one. @source CIPA DC-008 (Exif), 4.6.4 A: values 5 to 8 exchange rows and columns. */
export function isOnItsSide(orientationTag: number | null): boolean {
  return (orientationTag ?? 1) >= 5
}

/** Tag of the orientation. @source CIPA DC-008 (Exif), 4.6.4 A. */
export const ORIENTATION = 0x0112

/** The value of an upright picture. @source CIPA DC-008 (Exif), 4.6.4 A. */
const UPRIGHT = 1
/** The largest value that there is. @source CIPA DC-008 (Exif), 4.6.4 A. */
const LAST = 8

/** What is wrong when readers may turn a picture in different ways; null when all agree. */
export const DISAGREEMENT = 'its Exif blocks state different orientations'

/**
 * Whether what a file states of its orientation can be taken in different ways: twice in one directory, or differently in
 * several blocks.
 * @param blocks TIFF structures; one without an orientation, or with none that there can be, stands for upright
 */
export function orientationsDisagree(blocks: readonly Buffer[]): boolean {
  const directories = blocks.map((tiff) => readDirectory(tiff)).filter((directory) => directory !== null)
  const stated = directories.map((directory) => {
    const [value = UPRIGHT] = directory.numbers(ORIENTATION) ?? []
    return value >= UPRIGHT && value <= LAST ? value : UPRIGHT
  })
  return new Set(stated).size > 1 || directories.some(({ repeated }) => repeated.includes(ORIENTATION))
}
