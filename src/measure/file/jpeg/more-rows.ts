import { MARKER } from '../bytes/jpeg-markers.ts'
import type { Frame } from '../bytes/segments.ts'

/**
 * Rows of the strips in which the picture library reads a picture. It looks for the decoder's warnings before each strip and never
 * after the last one, so that damage there would pass unnoticed.
 * @source libvips 8.18, jpeg2vips.c.
 */
export const STRIP_ROWS = 8

// Baseline and extended sequential, Huffman coding. Of other pictures the library reads all data before the first strip.
const SEQUENTIAL: readonly number[] = [MARKER.SOF0, MARKER.SOF1]

/** Most rows that a frame header can state. @source ITU-T T.81, B.2.2. */
const MOST_ROWS = 65_535

/**
 * Whether the last strip can hold damage that goes unnoticed: the picture is decoded as it is read, and one row of its
 * coded blocks is one strip. Of pictures whose color is sampled half as often down the frame, the decoder reads ahead.
 */
export function isLastStripUnwatched({ marker, components, height }: Frame, scans: number): boolean {
  const blockRows = Math.max(...components.map(({ v }) => v))
  return SEQUENTIAL.includes(marker) && scans === 1 && blockRows === 1 && height + STRIP_ROWS <= MOST_ROWS
}

/** The picture with one strip more in its header, which has no data. Cut off the rows of that strip after decoding. */
export function withOneStripMore(jpeg: Buffer, { height, heightAt }: Frame): Buffer {
  const copy = Buffer.from(jpeg)
  copy.writeUInt16BE(height + STRIP_ROWS, heightAt)
  return copy
}
