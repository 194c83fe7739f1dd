import { CHANNELS, type Picture } from './memory.ts'
import { withKernels } from './with-kernels.ts'

/** Places in a picture by cells: `places` x `places` in each, told across and along an axis. */
export interface Grid {
  /** Where both are 0, px. */
  readonly origin: { readonly x: number; readonly y: number }
  /** Of length 1, pointing along; across is a quarter of a turn to its left. */
  readonly axis: { readonly x: number; readonly y: number }
  /** Pixels a unit takes. */
  readonly unit: number
  readonly across: Float64Array
  readonly along: Float64Array
  readonly places: number
}

/**
 * Sums of red, green and blue over the places of each cell, row by row, by bilinear interpolation; pixels are centered at halves, and beyond the
 * frame its edge goes on. In double precision.
 */
export function colorSums(picture: Picture, grid: Grid): Float64Array {
  const { width, height } = picture
  const { origin, axis, unit, across, along, places } = grid
  const [columns, rows] = [across.length / places, along.length / places]
  // Only the part of the picture that the places lie in.
  const ends = (values: Float64Array) => [values[0] ?? 0, values[values.length - 1] ?? 0]
  const corners = ends(along).flatMap((v) => ends(across).map((u) => ({ u, v })))
  const xs = corners.map(({ u, v }) => origin.x + unit * (u * axis.y + v * axis.x))
  const ys = corners.map(({ u, v }) => origin.y + unit * (v * axis.y - u * axis.x))
  const [left, right] = rangeOf(xs, width)
  const [top, bottom] = rangeOf(ys, height)
  const part = { left, top, width: right - left, height: bottom - top }
  return withKernels((kernels, memory) => {
    const out = memory.room(Float64Array.BYTES_PER_ELEMENT * CHANNELS * columns * rows)
    kernels.colorSums(
      memory.part(picture, part),
      CHANNELS * part.width,
      left,
      top,
      width,
      height,
      ...[origin.x, origin.y, axis.x, axis.y, unit],
      memory.put(across),
      columns,
      memory.put(along),
      rows,
      places,
      out,
    )
    return memory.doubles(out, CHANNELS * columns * rows)
  })
}

/** The first pixel that places between these are interpolated from, and the one after the last. */
function rangeOf(places: readonly number[], length: number): [number, number] {
  const within = (place: number) => Math.min(length - 1, Math.max(0, Math.floor(place)))
  return [within(Math.min(...places) - 1), within(Math.max(...places) + 1) + 1]
}

/** Weights of red, green and blue. */
export interface Weights {
  readonly red: number
  readonly green: number
  readonly blue: number
}

/**
 * Weighted sums of red, green and blue at `size` x `size` places, row by row, from (left, top) on, `step` px apart, by bilinear interpolation in double
 * precision; pixels are centered at halves, and beyond the frame its edge goes on.
 */
export function graySquare(
  picture: Picture,
  {
    left,
    top,
    step,
    size,
  }: { readonly left: number; readonly top: number; readonly step: number; readonly size: number },
  { red, green, blue }: Weights,
): Float32Array {
  const { width, height } = picture
  const [firstX, endX] = rangeOf([left, left + step * (size - 1)], width)
  const [firstY, endY] = rangeOf([top, top + step * (size - 1)], height)
  const part = { left: firstX, top: firstY, width: endX - firstX, height: endY - firstY }
  return withKernels((kernels, memory) => {
    const out = memory.room(Float32Array.BYTES_PER_ELEMENT * size * size)
    const codes = [memory.part(picture, part), CHANNELS * part.width, firstX, firstY, width, height]
    kernels.graySquare(...codes, size, left, top, step, red, green, blue, out)
    return memory.floats(out, size * size)
  })
}

/** Places by cells, `places` x `places` in each, px: those of a row, but for what the row adds, and what each row of places adds. */
export interface CellPlaces {
  readonly xs: Float64Array
  readonly ys: Float64Array
  readonly downXs: Float64Array
  readonly downYs: Float64Array
  readonly places: number
}

/**
 * Sums of weighted red, green and blue over the places of each cell, row by row, by bilinear interpolation in double precision; pixels are centered at
 * halves. Not a number where one of the places lies outside the picture.
 */
export function graySums(
  { data, width, height }: Picture,
  { xs, ys, downXs, downYs, places }: CellPlaces,
  { red, green, blue }: Weights,
): Float64Array {
  const [columns, rows] = [xs.length / places, downXs.length / places]
  return withKernels((kernels, memory) => {
    const out = memory.room(Float64Array.BYTES_PER_ELEMENT * columns * rows)
    kernels.graySums(
      memory.put(data),
      width,
      height,
      ...[memory.put(xs), memory.put(ys), columns],
      ...[memory.put(downXs), memory.put(downYs), rows],
      ...[places, red, green, blue],
      out,
    )
    return memory.doubles(out, columns * rows)
  })
}

/** A square of places in a picture, px: the first, and the steps to the next column and to the next row. Pixels stand at whole numbers. */
export interface Places {
  readonly size: number
  readonly first: readonly [x: number, y: number]
  readonly column: readonly [x: number, y: number]
  readonly row: readonly [x: number, y: number]
}

/**
 * R, G, B at each place, row by row, by bilinear interpolation in double precision, times `scale` and plus `offset`.
 * @param isBlack whether a place outside the picture is black; else it has the color of the nearest edge
 */
export function colorsAt(
  picture: Picture,
  { size, first, column, row }: Places,
  { scale, offset }: { readonly scale: number; readonly offset: number },
  isBlack: boolean,
): Float32Array<ArrayBuffer> {
  const { width, height } = picture
  // Only the rows that the places lie in.
  const corners = [0, size - 1].flatMap((i) =>
    [0, size - 1].map((j) => first[1] + i * column[1] + j * row[1]),
  )
  const [top, bottom] = rangeOf(corners, height)
  const part = { left: 0, top, width, height: bottom - top }
  return withKernels((kernels, memory) => {
    const places = [...first, ...column, ...row]
    const out = memory.room(Float32Array.BYTES_PER_ELEMENT * CHANNELS * size * size)
    const start = memory.part(picture, part) - CHANNELS * width * top
    kernels.colorsAt(start, width, height, size, ...places, scale, offset, Number(isBlack), out)
    return memory.floats(out, CHANNELS * size * size)
  })
}
