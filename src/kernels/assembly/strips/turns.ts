// The outer part of a picture along one side, as it would look were a line across it the border of a turned picture: eight positions at a time.

import { between, levelled, ROW, shear } from './sides'

/** Most rows that are read for one place along the line. @choice for twice the largest reach, and what lies beside it */
const MOST_ROWS: usize = 256
/** A quarter in the fractions that a vector of 16-bit numbers is multiplied by. */
const QUARTER: i16 = 8192
/** Bytes of the sums of a bin, and of what a line tells. */
const SUMS: usize = 24
const TOLD: usize = 16
/** Squares of sixteenths of a code in a squared code. */
const SQUARES: f32 = 256
/** Bytes of room that {@link turnEvidence} works in. */
export function turnRoom(): usize {
  return 2 * MOST_ROWS * ROW + SUMS
}

/** Bytes of a line: where it starts, its slope, the position of the first bin and how many bins there are, as doubles. */
const LINE: usize = 32

/**
 * As the definition in tests/kernels/strips/turns.test.ts, for some lines one after the other: four floats of each.
 * @param size and all that follows: see {@link tellLine}
 */
export function turnEvidence(
  luma: usize,
  length: i32,
  depth: i32,
  lines: usize,
  count: i32,
  size: i32,
  blocks: i32,
  reach: i32,
  away: i32,
  noise: f32,
  least: f32,
  isMean: bool,
  room: usize,
  out: usize,
): void {
  for (let k = 0; k < count; k++, lines += LINE, out += TOLD) {
    const start = load<f64>(lines)
    const slope = load<f64>(lines, 8)
    const first = <i32>load<f64>(lines, 16)
    const bins = <i32>load<f64>(lines, 24)
    tellLine(luma, length, depth, start, slope, first, bins, size, blocks, reach, away, noise, least, isMean, room, out)
  }
}

/**
 * What speaks for pixels mirrored in a line, and the most that could; the same for pixels that are repeated from it outward.
 * @param luma sixteenths of a code, `length` a row
 * @param start and slope of the line
 * @param first position of the first bin
 * @param size positions of a bin, of which the middle eight of each of so many `blocks` are read
 * @param away by how much farther inside or outside of the line nothing must mirror
 * @param noise and least detail, squared codes
 * @param isMean whether what would be if nothing mirrored is the mean of both lines beside it, not the lesser
 * @param room as many bytes as {@link turnRoom} says
 */
function tellLine(
  luma: usize,
  length: i32,
  depth: i32,
  start: f64,
  slope: f64,
  first: i32,
  bins: i32,
  size: i32,
  blocks: i32,
  reach: i32,
  away: i32,
  noise: f32,
  least: f32,
  isMean: bool,
  room: usize,
  out: usize,
): void {
  const bytes = <usize>length << 1
  const sheared = room
  const level = room + MOST_ROWS * ROW
  // Along the normal of the line, a step inward goes back by its slope: rows that are shifted so have the line at these depths.
  const upright = 1 / (1 + slope * slope)
  const rise = slope * upright
  const sums = level + MOST_ROWS * ROW
  const apart = size / blocks
  for (let at: usize = 0; at < TOLD; at += 4) store<f32>(out + at, 0)
  for (let bin = 0; bin < bins; bin++) {
    const from = first + bin * size + (apart - 8) / 2
    const last = from + (blocks - 1) * apart + 8
    const shallow = (start + slope * <f64>(slope > 0 ? from : last)) * upright
    const deep = (start + slope * <f64>(slope > 0 ? last : from)) * upright
    const far = min(min(reach, <i32>Math.floor(shallow)), depth - <i32>Math.ceil(deep) - away - 2)
    if (far < 2) continue
    memory.fill(sums, 0, SUMS)
    let read = 0
    for (let k = 0; k < blocks; k++) {
      const u = from + k * apart
      const edge = (start + slope * (<f64>u + 0.5)) * upright
      const base = <i32>Math.floor(min(edge, edge + 7 * rise))
      const low = base - far
      const high = base + far + away + 1
      const shift = slope * <f64>low
      const end = slope * <f64>high
      const margin = far + 2
      if (low < 0 || high >= depth) continue
      if (<f64>u - max(shift, end) < margin || <f64>u - min(shift, end) > length - 10 - margin) continue
      read++
      shear(luma + <usize>low * bytes, bytes, <f64>u - shift, slope, high - low + 1, sheared)
      levelled(sheared, edge - <f64>base, rise, 2 * far + away, level)
      const zero = level + <usize>far * ROW
      mirror(zero, far, away, sums)
      repeat(zero, far, luma + <usize>(base - 2) * bytes, bytes, <f64>u - <f64>(base - 2) * slope, slope, sums)
    }
    if (read == 0) continue
    const column: f32 = 8 * SQUARES * <f32>read
    const places = column * <f32>far
    const further = load<f32>(sums, 4) / places
    const nearer = load<f32>(sums, 8) / places
    const beside = isMean ? Mathf.sqrt((further + noise) * (nearer + noise)) - noise : min(further, nearer)
    tell(load<f32>(sums) / places, beside, noise, least, out)
    const others = places - column
    tell(load<f32>(sums, 12) / others, min(load<f32>(sums, 16), load<f32>(sums, 20)) / others, noise, least, out + 8)
  }
}

/** Adds to three sums how much rows outside of the line differ from those mirrored in it, in a line further in, and in one farther out. */
function mirror(zero: usize, far: i32, away: i32, sums: usize): void {
  let mirrored = i32x4.splat(0)
  let further = i32x4.splat(0)
  let nearer = i32x4.splat(0)
  const beside = <usize>away * ROW
  for (let i = 0; i < far; i++) {
    const outside = v128.load(zero - <usize>(i + 1) * ROW)
    const inside = zero + <usize>i * ROW
    mirrored = i32x4.add(mirrored, square(i16x8.sub(v128.load(inside), outside)))
    further = i32x4.add(further, square(i16x8.sub(v128.load(inside + beside), outside)))
    // A row differs from itself by nothing, which tells nothing.
    if (away - i <= far && 2 * i + 1 != away)
      nearer = i32x4.add(nearer, square(i16x8.sub(v128.load(inside - beside), outside)))
  }
  add(sums, total(mirrored))
  add(sums + 4, total(further))
  add(sums + 8, total(nearer) * (2 * far > away ? <f32>far / <f32>(far - 1) : <f32>1))
}

/**
 * Adds to three sums how much rows outside of the line differ from the color there, the same inside of it, and the lesser of both as far along it outside.
 * @param at the row of lumas one and a half px outside of the line, `bytes` long, whose position there is `x`
 */
function repeat(zero: usize, far: i32, at: usize, bytes: usize, x: f64, slope: f64, sums: usize): void {
  const outer = quarterWay(zero - ROW, zero - 2 * ROW)
  const inner = quarterWay(zero, zero + ROW)
  let repeated = i32x4.splat(0)
  let changed = i32x4.splat(0)
  let along = i32x4.splat(0)
  for (let i = 1; i < far; i++, at -= bytes, x += slope) {
    repeated = i32x4.add(repeated, square(i16x8.sub(v128.load(zero - <usize>(i + 1) * ROW), outer)))
    changed = i32x4.add(changed, square(i16x8.sub(v128.load(zero + <usize>i * ROW), inner)))
    const here = at + (<usize>(<i32>(x + 0.5)) << 1)
    const off = <usize>(i + 1) << 1
    const before = i16x8.abs(i16x8.sub(v128.load(here - off), outer))
    const after = i16x8.abs(i16x8.sub(v128.load(here + off), outer))
    along = i32x4.add(along, square(i16x8.min_s(before, after)))
  }
  add(sums + 12, total(repeated))
  add(sums + 16, total(changed))
  add(sums + 20, total(along))
}

/** Adds what a bin tells: how much smaller the one difference is than the other, and the most that its detail could tell. */
function tell(filled: f32, otherwise: f32, noise: f32, least: f32, out: usize): void {
  const detail = max(filled, otherwise)
  if (detail < least) return
  const most = Mathf.log((detail + noise) / noise)
  add(out, max(-most, Mathf.log((otherwise + noise) / (filled + noise))))
  add(out + 4, most)
}

function add(at: usize, value: f32): void {
  store<f32>(at, load<f32>(at) + value)
}

function quarterWay(from: usize, to: usize): v128 {
  return between(v128.load(from), v128.load(to), i16x8.splat(QUARTER))
}

function square(differences: v128): v128 {
  return i32x4.dot_i16x8_s(differences, differences)
}

function total(sums: v128): f32 {
  const floats = f32x4.convert_i32x4_s(sums)
  const halves = f32x4.add(floats, v128.shuffle<f32>(floats, floats, 2, 3, 0, 1))
  return f32x4.extract_lane(halves, 0) + f32x4.extract_lane(halves, 1)
}
