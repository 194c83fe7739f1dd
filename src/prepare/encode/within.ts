/** Where something that grows with a setting reaches a limit. */
export interface Search {
  /** Bytes at a setting; more with a larger one, as a rule. */
  readonly bytesAt: (setting: number) => Promise<number>
  readonly mostBytes: number
}

/** Steps that are guessed by the sizes known so far before halves are tried. @choice three are enough for most pictures. */
const GUESSES = 4

/** By so much one step of quality changes a file, as long as nothing is known of it. @tuned 3 to 20 % on drawn portraits; middle 6 %. */
const USUAL_STEP = 0.06

/**
 * The highest whole setting within the limit; null when not even the least is.
 * @param start where to look first
 */
export async function highestWithin(
  { bytesAt, mostBytes }: Search,
  { min, max }: { readonly min: number; readonly max: number },
  start: number,
): Promise<number | null> {
  let [low, high] = [min - 1, max + 1]
  let slope = USUAL_STEP
  let next = start
  let known: { readonly setting: number; readonly log: number } | null = null
  for (let round = 0; high - low > 1; round++) {
    const setting = Math.min(Math.max(next, low + 1), high - 1)
    const log = Math.log((await bytesAt(setting)) / mostBytes)
    if (log <= 0) low = setting
    else high = setting
    if (known) slope = Math.max((log - known.log) / (setting - known.setting), USUAL_STEP / 4)
    known = { setting, log }
    const guess = Math.floor(setting - log / slope)
    next = round < GUESSES ? guess : Math.ceil((low + high) / 2)
  }
  return low < min ? null : low
}

/** From this share of the limit on nothing more is tried to fill it. @choice 1 % more is no visible gain, no source. */
const FULL = 0.99

/** Most shares that are tried. @choice by then most files are within 1 % of the limit, no source. */
const TRIES = 5

/**
 * The largest share 0..1 of those tried that is within the limit; null when none is.
 * @param ends bytes with a share of 0, which fit, and of 1, which don't
 */
export async function largestShareWithin(
  { bytesAt, mostBytes }: Search,
  [least, most]: readonly [number, number],
): Promise<number | null> {
  let low = { share: 0, bytes: least }
  let high = { share: 1, bytes: most }
  for (let round = 0; round < TRIES && low.bytes < FULL * mostBytes; round++) {
    // Bytes grow faster at first, so that straight interpolation lands low; not too near to either end.
    const part = (mostBytes - low.bytes) / (high.bytes - low.bytes)
    const share = low.share + Math.min(Math.max(part, 0.1), 0.9) ** 2 * (high.share - low.share)
    const bytes = await bytesAt(share)
    if (bytes <= mostBytes) low = { share, bytes }
    else high = { share, bytes }
  }
  return low.share === 0 ? null : low.share
}
