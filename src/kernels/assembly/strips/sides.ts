// The outer part of a picture along one side, as planes whose rows run along that side from the frame's edge inward.

/** Pixels of a vector, and the lines and columns of a tile. */
const TILE: i32 = 16
const BYTES: usize = 256

/**
 * As the definition in tests/kernels/strips/sides.test.ts: red, green and blue, and luma in sixteenths of a code by the weights of ITU-R BT.709-6, item 3.2,
 * in 128ths: 27, 92 and 9.
 * @param pixels of three channels or of one, `width` a line, one line after the other
 * @param isAcross whether a line of pixels becomes a column of the planes, not a row
 * @param isBack whether pixels of a line are taken from its end
 * @param isUp whether lines are taken from the last
 * @param planes where each of three begins, of `size` bytes and room for 64 before and after each
 * @param room for three planes of as many lines of `width`, rounded up to sixteen pixels, and for two tiles
 */
export function outerPart(
  pixels: usize,
  channels: i32,
  width: i32,
  lines: i32,
  isAcross: bool,
  isBack: bool,
  isUp: bool,
  reds: usize,
  greens: usize,
  blues: usize,
  lumas: usize,
  room: usize,
): void {
  const wide = <usize>((width + TILE - 1) & ~(TILE - 1))
  const plane = wide * <usize>lines + BYTES
  const tiles = room + 3 * plane
  for (let k = 0; k < lines; k++) {
    // A vector that reaches beyond its line is written over by the next one.
    const line = <usize>(isBack && !isAcross ? lines - 1 - k : k)
    const from = pixels + <usize>(channels * width) * (isUp ? <usize>(lines - 1) - line : line)
    if (isAcross) {
      const to = room + BYTES / 2 + line * wide
      split(from, channels, width, isBack, to, to + plane, to + 2 * plane)
    } else {
      const to = line * <usize>width
      split(from, channels, width, isBack, reds + to, greens + to, blues + to)
    }
  }
  if (isAcross) {
    const from = room + BYTES / 2
    transpose(from, wide, lines, width, reds, tiles)
    transpose(from + plane, wide, lines, width, greens, tiles)
    transpose(from + 2 * plane, wide, lines, width, blues, tiles)
  }
  for (let i = 0; i < lines * width; i += TILE) {
    const red = v128.load(reds + i)
    const green = v128.load(greens + i)
    const blue = v128.load(blues + i)
    const low = luma(i16x8.extend_low_i8x16_u(red), i16x8.extend_low_i8x16_u(green), i16x8.extend_low_i8x16_u(blue))
    const high = luma(i16x8.extend_high_i8x16_u(red), i16x8.extend_high_i8x16_u(green), i16x8.extend_high_i8x16_u(blue))
    v128.store(lumas + (<usize>i << 1), low)
    v128.store(lumas + (<usize>i << 1), high, 16)
  }
}

/** A line of pixels as three planes, sixteen pixels at a time. */
function split(from: usize, channels: i32, width: i32, isBack: bool, r: usize, g: usize, b: usize): void {
  for (let x = 0; x < width; x += TILE) {
    const at = from + <usize>(channels * x)
    const first = v128.load(at)
    let red = first
    let green = first
    let blue = first
    if (channels == 3) {
      const second = v128.load(at, 16)
      const third = v128.load(at, 32)
      red = v128.shuffle<i8>(first, second, 0, 3, 6, 9, 12, 15, 18, 21, 24, 27, 30, 0, 0, 0, 0, 0)
      red = v128.shuffle<i8>(red, third, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 17, 20, 23, 26, 29)
      green = v128.shuffle<i8>(first, second, 1, 4, 7, 10, 13, 16, 19, 22, 25, 28, 31, 0, 0, 0, 0, 0)
      green = v128.shuffle<i8>(green, third, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 18, 21, 24, 27, 30)
      blue = v128.shuffle<i8>(first, second, 2, 5, 8, 11, 14, 17, 20, 23, 26, 29, 0, 0, 0, 0, 0, 0)
      blue = v128.shuffle<i8>(blue, third, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 16, 19, 22, 25, 28, 31)
    }
    if (isBack) {
      red = turned(red)
      green = turned(green)
      blue = turned(blue)
    }
    const to = <usize>(isBack ? width - TILE - x : x)
    v128.store(r + to, red)
    v128.store(g + to, green)
    v128.store(b + to, blue)
  }
}

/** Lines as columns, a tile at a time. @param wide bytes of a line */
function transpose(from: usize, wide: usize, lines: i32, width: i32, to: usize, tiles: usize): void {
  // From the last tile of a column to the first: what reaches beyond one is written over.
  for (let line = (lines - 1) & ~(TILE - 1); line >= 0; line -= TILE) {
    for (let x = 0; x < width; x += TILE) {
      for (let k = 0; k < TILE; k++)
        v128.store(tiles + (<usize>k << 4), v128.load(from + <usize>min(line + k, lines - 1) * wide + x))
      // Four times the first half of the rows interleaved with the second.
      interleave(tiles, tiles + BYTES)
      interleave(tiles + BYTES, tiles)
      interleave(tiles, tiles + BYTES)
      interleave(tiles + BYTES, tiles)
      for (let k = 0; k < min(TILE, width - x); k++)
        v128.store(to + <usize>((x + k) * lines + line), v128.load(tiles + (<usize>k << 4)))
    }
  }
}

function interleave(from: usize, to: usize): void {
  for (let k: usize = 0; k < BYTES / 2; k += 16) {
    const a = v128.load(from + k)
    const b = v128.load(from + k, BYTES / 2)
    v128.store(to + 2 * k, v128.shuffle<i8>(a, b, 0, 16, 1, 17, 2, 18, 3, 19, 4, 20, 5, 21, 6, 22, 7, 23))
    v128.store(to + 2 * k, v128.shuffle<i8>(a, b, 8, 24, 9, 25, 10, 26, 11, 27, 12, 28, 13, 29, 14, 30, 15, 31), 16)
  }
}

function luma(red: v128, green: v128, blue: v128): v128 {
  const sum = i16x8.add(i16x8.mul(red, i16x8.splat(27)), i16x8.mul(green, i16x8.splat(92)))
  return i16x8.shr_u(i16x8.add(sum, i16x8.mul(blue, i16x8.splat(9))), 3)
}

function turned(bytes: v128): v128 {
  return v128.shuffle<i8>(bytes, bytes, 15, 14, 13, 12, 11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0)
}

/** Means of four lumas each, rounded: the strip of a picture of half the size. A vector that reaches beyond its row is written over by the next one. */
export function halve(lumas: usize, length: i32, depth: i32, out: usize): void {
  const row = <usize>length << 1
  const half = length >> 1
  for (let d = 0; d < depth >> 1; d++, out += <usize>half << 1) {
    const above = lumas + 2 * <usize>d * row
    for (let t: usize = 0; t < <usize>half << 1; t += 16) {
      const first = pairs(above + 2 * t, row)
      const second = pairs(above + 2 * t + 16, row)
      const sums = i16x8.narrow_i32x4_s(first, second)
      v128.store(out + t, i16x8.shr_s(i16x8.add(sums, i16x8.splat(2)), 2))
    }
  }
}

/** Four sums of two lumas and the two below them. */
function pairs(at: usize, row: usize): v128 {
  return i32x4.extadd_pairwise_i16x8_s(i16x8.add(v128.load(at), v128.load(at + row)))
}

// Eight positions of a strip at a time, laid so that a slanted line runs along a row.

/** Bytes of eight lumas. */
export const ROW: usize = 16
/** A whole pixel in what depths are counted in. */
const WHOLE: f64 = 16384

/** Eight positions in each of some rows, which are shifted by the slope one from the other. */
export function shear(at: usize, bytes: usize, start: f64, slope: f64, rows: i32, out: usize): void {
  // In 32,768ths of a pixel.
  let x = <i32>Math.floor(start * 32768)
  const step = <i32>Math.round(slope * 32768)
  for (let d = 0; d < rows; d++, at += bytes, x -= step, out += ROW) {
    const from = at + (<usize>(x >> 15) << 1)
    v128.store(out, between(v128.load(from), v128.load(from, 2), i16x8.splat(<i16>(x & 0x7fff))))
  }
}

/**
 * The same with the line along a row of them: one that lies `depth` px below the first at the first position, and `rise` px more at each.
 * @param depth less than 1 at the position where it is least, and less than 2 at all
 */
export function levelled(rows: usize, depth: f64, rise: f64, count: i32, out: usize): void {
  // In 16,384ths of a pixel: whole ones are the bit above.
  const steps = i16x8.mul(i16x8(0, 1, 2, 3, 4, 5, 6, 7), i16x8.splat(<i16>Math.round(rise * WHOLE)))
  const below = i16x8.add(i16x8.splat(<i16>(depth * WHOLE)), steps)
  const mask = i16x8.ge_s(below, i16x8.splat(<i16>WHOLE))
  const share = i16x8.shl(v128.and(below, i16x8.splat(<i16>WHOLE - 1)), 1)
  let row = v128.load(rows, ROW)
  let here = v128.bitselect(row, v128.load(rows), mask)
  for (let j = 0; j < count; j++, out += ROW, rows += ROW) {
    const next = v128.load(rows, 2 * ROW)
    const beneath = v128.bitselect(next, row, mask)
    v128.store(out, between(here, beneath, share))
    row = next
    here = beneath
  }
}

/** Values between two by a share, in 32,768ths. */
export function between(a: v128, b: v128, share: v128): v128 {
  return i16x8.add(a, i16x8.q15mulr_sat_s(i16x8.sub(b, a), share))
}
