import { CHANNELS, ownKernels, type Picture } from '../memory.ts'

/** A picture of three channels, or of one, which then counts as all three. */
export interface Channels extends Picture {
  readonly isGray?: boolean
}

/** The outer part of a picture along one side as it lies in the memory of strips, each value at `[inward * length + along]`. */
export interface LumaStrip {
  /** Px along the side, and inward. */
  readonly length: number
  readonly depth: number
  /** Address of 16-bit sixteenths of a code: JPEG keeps luma better than any channel. By the weights of ITU-R BT.709-6, item 3.2, in 128ths. */
  readonly luma: number
}

export interface ColorStrip extends LumaStrip {
  /** Addresses of red, green and blue codes. */
  readonly planes: readonly [number, number, number]
}

/** Strips are read many times: they stay where kernels find them. */
export const stripKernels = ownKernels()
const { kernels, memory } = stripKernels

/** Forgets all strips: to be called before those of the next picture are made. */
export function forgetStrips(): void {
  kernels.giveBack(0)
}

/** Bytes of a vector, and of sixteen of them. */
const VECTOR = 16
const TILE = 256

/** Room before and after a plane that vectors may write into, bytes. */
const EDGE = 64

/** The outer part of a picture along one side, positions clockwise round the frame. @param depth px inward */
export function outerPart(
  { data, width, height, isGray = false }: Channels,
  side: 'top' | 'right' | 'bottom' | 'left',
  depth: number,
): ColorStrip {
  const channels = isGray ? 1 : CHANNELS
  const isAcross = side === 'left' || side === 'right'
  const [pixels, lines] = isAcross ? [depth, height] : [width, depth]
  const left = side === 'right' ? width - depth : 0
  const top = side === 'bottom' ? height - depth : 0
  const size = pixels * lines
  const planes = [roomFor(size), roomFor(size), roomFor(size)] as const
  const luma = roomFor(Int16Array.BYTES_PER_ELEMENT * size)
  const before = kernels.taken()
  const source = memory.part({ data, width, height }, { left, top, width: pixels, height: lines }, channels)
  const room = memory.room(isAcross ? CHANNELS * ((pixels + VECTOR) * lines + TILE) + 2 * TILE : 0)
  const [isBack, isUp] = [side === 'right' || side === 'bottom', side === 'left' || side === 'bottom']
  kernels.outerPart(
    ...[source, channels, pixels, lines, Number(isAcross), Number(isBack), Number(isUp)],
    ...[...planes, luma, room],
  )
  kernels.giveBack(before)
  return { length: isAcross ? height : width, depth, planes, luma }
}

function roomFor(bytes: number): number {
  return memory.room(bytes + 2 * EDGE) + EDGE
}

/** The strip of a picture of half the size: means of four pixels. */
export function halved({ luma, length, depth }: LumaStrip): LumaStrip {
  const half = { length: length >> 1, depth: depth >> 1 }
  const means = memory.room(Int16Array.BYTES_PER_ELEMENT * half.length * half.depth)
  kernels.halve(luma, length, depth, means)
  return { ...half, luma: means }
}

/** The red, green and blue codes of a strip as they lie there, until more strips are made. */
export function codesOf({
  planes,
  length,
  depth,
}: ColorStrip): readonly [Uint8Array, Uint8Array, Uint8Array] {
  const [reds, greens, blues] = planes
  const of = (plane: number) => memory.seen(plane, length * depth)
  return [of(reds), of(greens), of(blues)]
}
