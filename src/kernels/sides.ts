import { CHANNELS, type Picture, withKernels } from './memory.ts'

/** A picture of three channels, or of one, which then counts as all three. */
export interface Channels extends Picture {
  readonly isGray?: boolean
}

/** Red, green, blue and luma, each `[inward * length + along]`. */
export interface OuterPart {
  readonly planes: readonly [Uint8Array, Uint8Array, Uint8Array]
  /** Sixteenths of a code: JPEG keeps it better than any of the three. By the weights of ITU-R BT.709-6, item 3.2, in 128ths. */
  readonly luma: Int16Array
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
): OuterPart {
  const channels = isGray ? 1 : CHANNELS
  const isAcross = side === 'left' || side === 'right'
  const [pixels, lines] = isAcross ? [depth, height] : [width, depth]
  const left = side === 'right' ? width - depth : 0
  const top = side === 'bottom' ? height - depth : 0
  return withKernels((kernels, memory) => {
    const source = memory.part({ data, width, height }, { left, top, width: pixels, height: lines }, channels)
    const size = pixels * lines
    const plane = () => memory.room(size + 2 * EDGE) + EDGE
    const [reds, greens, blues] = [plane(), plane(), plane()]
    const lumas = memory.room(2 * size + 2 * EDGE) + EDGE
    const room = memory.room(isAcross ? CHANNELS * ((pixels + VECTOR) * lines + TILE) + 2 * TILE : 0)
    const [isBack, isUp] = [side === 'right' || side === 'bottom', side === 'left' || side === 'bottom']
    kernels.outerPart(
      ...[source, channels, pixels, lines, Number(isAcross), Number(isBack), Number(isUp)],
      ...[reds, greens, blues, lumas, room],
    )
    return {
      planes: [memory.bytes(reds, size), memory.bytes(greens, size), memory.bytes(blues, size)],
      luma: memory.shorts(lumas, size),
    }
  })
}
