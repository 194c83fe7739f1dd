import { indexesOf } from '../../imaging/pixel-indexes.ts'
import type { Region } from '../../imaging/regions.ts'
import type { LaidPicture } from '../../kernels/edges.ts'
import type { Backdrop } from '../backdrop/backdrop.ts'
import { SMALLEST_INTRUSION_PCT } from '../schema/background.ts'
import type { Intrusion } from '../schema/measurements.ts'
import { backdropEdges } from './backdrop-edges.ts'
import { edgeObjects } from './edge-objects.ts'
import { type FrameLine, SIDES, type Side } from './frame-line.ts'
import type { SitterRoom } from './sitter-room.ts'

/** Around a thing its blur is no backdrop either, px at working size. @choice as an edge is smeared by averaging and slopes, no source. */
const BLUR = 3

/** Most of the border that intrusions take up, share of it. @choice no source: more is no backdrop with something in it. */
const MOST_BORDER = 0.65

/** Most regions. @tuned on striped walls, which are a pattern: more are no intrusions. */
const MOST_REGIONS = 4

/** What is the same for each search. */
export interface Shown {
  readonly picture: LaidPicture
  /** Indexes of pixels that are backdrop if anything is. */
  readonly border: Int32Array
  /** Where edges of the backdrop may run. */
  readonly lines: readonly FrameLine[]
  readonly room: SitterRoom
  /** 1 where straightening left wedges; null where there are none. */
  readonly filled: Uint8Array | null
}

export interface FoundIntrusions {
  /** 1 where something stands, its blur included. */
  readonly covered: Uint8Array
  /** Those large enough to be told, largest first. */
  readonly intrusions: Intrusion[]
  /** How many there are, specks included. */
  readonly count: number
  /** False when there are so many, or they take so much of the border, that it is no backdrop with something in it. */
  readonly few: boolean
}

/** Finds what stands before a backdrop that is neither backdrop nor sitter. */
export function findIntrusions(
  { picture, border, lines, room, filled }: Shown,
  backdrop: Backdrop,
): FoundIntrusions {
  const { width, height } = backdrop
  const covered = filled?.slice() ?? new Uint8Array(width * height)
  const beyond = backdropEdges(picture, backdrop, lines, room)
    .map(({ mask }) => indexesOf(mask))
    .filter((region) => !isFilled(region, filled))
  for (const region of beyond) for (const i of region) covered[i] = 1
  const objects = edgeObjects(backdrop, covered, room)
  for (const region of objects) cover(covered, region, width, height)
  const regions = [...beyond, ...objects]
  const inBorder = border.filter((i) => covered[i] === 1).length
  const intrusions = regions
    .map((region) => intrusionOf(region, width, height, room))
    .filter(({ areaPct }) => areaPct >= SMALLEST_INTRUSION_PCT)
    .sort((p, q) => q.areaPct - p.areaPct)
  const few = regions.length <= MOST_REGIONS && inBorder <= MOST_BORDER * border.length
  return { covered, intrusions, count: regions.length, few }
}

/** Whether most of a region is a wedge, which is found by its edge too. */
function isFilled(region: Region, filled: Uint8Array | null): boolean {
  return filled !== null && region.filter((i) => filled[i] === 1).length > region.length / 2
}

function cover(covered: Uint8Array, region: Region, width: number, height: number): void {
  for (const i of region) {
    const x = i % width
    const y = Math.floor(i / width)
    for (let row = Math.max(0, y - BLUR); row <= Math.min(height - 1, y + BLUR); row++)
      covered.fill(1, row * width + Math.max(0, x - BLUR), row * width + Math.min(width, x + BLUR + 1))
  }
}

function intrusionOf(region: Region, width: number, height: number, room: SitterRoom): Intrusion {
  let [left, top, right, bottom] = [width, height, 0, 0]
  const contact: Record<Side, number> = { top: 0, right: 0, bottom: 0, left: 0 }
  for (const i of region) {
    const x = i % width
    const y = Math.floor(i / width)
    left = Math.min(left, x)
    right = Math.max(right, x + 1)
    top = Math.min(top, y)
    bottom = Math.max(bottom, y + 1)
    if (x === 0) contact.left++
    if (x === width - 1) contact.right++
    if (y === 0) contact.top++
    if (y === height - 1) contact.bottom++
  }
  // At a corner, the side from which less of the picture has to go.
  const cost: Record<Side, number> = {
    top: bottom / height,
    bottom: 1 - top / height,
    left: right / width,
    right: 1 - left / width,
  }
  const clear = (side: Side) =>
    side === 'top'
      ? bottom <= room.midEyes.y
      : side === 'bottom'
        ? top > room.midEyes.y
        : side === 'left'
          ? right <= room.midEyes.x
          : left > room.midEyes.x
  const [side = 'top'] = SIDES.filter((each) => contact[each] > 0).toSorted(
    (p, q) => Number(clear(q)) - Number(clear(p)) || cost[p] - cost[q],
  )
  return {
    side,
    box: {
      x: left / width,
      y: top / height,
      width: (right - left) / width,
      height: (bottom - top) / height,
    },
    areaPct: (100 * region.length) / (width * height),
  }
}
