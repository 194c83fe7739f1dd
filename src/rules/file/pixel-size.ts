import { type Static, Type } from '@sinclair/typebox'
import { closedEnds, type Limits, sideOf } from '../../numbers/limits.ts'
import { listed } from '../../text/quantity.ts'
import { sizeText } from '../../text/size.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { bandText, emptyRange } from '../judging/band.ts'
import { once } from '../judging/once.ts'
import { unmeasured } from '../judging/unmeasured.ts'

const Pixels = Type.Integer({ minimum: 1 })
const Length = Type.Union(
  [
    Pixels,
    Type.Object(
      { min: Type.Optional(Pixels), max: Type.Optional(Pixels) },
      { additionalProperties: false, minProperties: 1 },
    ),
  ],
  { description: 'Pixels, or a range { min, max } with both ends included, or one end alone.' },
)
type Length = Static<typeof Length>
const Options = Type.Object(
  {
    width: Type.Optional(Length),
    height: Type.Optional(Length),
    'long-edge': Type.Optional(Length),
    'short-edge': Type.Optional(Length),
  },
  {
    additionalProperties: false,
    minProperties: 1,
    description: 'Size in pixels as displayed, after any rotation in the EXIF orientation tag.',
  },
)

export const pixelSize = defineRule({
  id: 'pixel-size',
  severity: 'file',
  dependsOn: 'crop',
  text: {
    title: 'Width and height in pixels',
    measures: 'Width and height in pixels as displayed, after any rotation in the EXIF orientation tag.',
    why: 'Layouts and print sizes rely on exact pixels; enlarging a small file makes it soft.',
    fix: 'Export again from the original at the size asked for.',
    example: 'pixel-size: { width: 2400, height: 3000 }',
  },
  options: Options,
  needs: ['file'],
  problem(options) {
    for (const [edge, length] of Object.entries(options)) {
      const problem = emptyRange(limitsOf(length))
      if (problem) return `${edge}: ${problem}`
    }
    return null
  },
  framing: (options) => ({
    'pixel-size': {
      width: limitsOf(options.width ?? {}),
      height: limitsOf(options.height ?? {}),
      longEdge: limitsOf(options['long-edge'] ?? {}),
      shortEdge: limitsOf(options['short-edge'] ?? {}),
    },
  }),
  judge({ measured }, options) {
    const { widthPx, heightPx } = measured
    if (!widthPx || !heightPx) return unmeasured(measured, 'The pixel size')
    const parts = partsOf(options, widthPx, heightPx)
    // What is met needs no word where something is not.
    const missed = parts.filter((part) => part.side !== 'inside')
    const expected = listed((missed.length > 0 ? missed : parts).map((part) => part.asked))
    const size = sizeText({ widthPx, heightPx })
    const finding = {
      measured: size,
      expected,
      reason: `The picture is ${size}; the spec asks for ${expected}.`,
    }
    if (missed.length === 0) return { verdict: 'pass', ...finding }
    return { verdict: 'fail', ...finding, ...fixFor(parts, options, widthPx, heightPx) }
  },
})

interface Part {
  readonly asked: string
  readonly side: 'low' | 'inside' | 'high'
}

type Edge = (widthPx: number, heightPx: number) => number

const edgesOf = once((options: Static<typeof Options>) => {
  const edges: readonly (readonly [string, Length | undefined, Edge])[] = [
    ['a width of', options.width, (width) => width],
    ['a height of', options.height, (_, height) => height],
    ['a long edge of', options['long-edge'], Math.max],
    ['a short edge of', options['short-edge'], Math.min],
  ]
  return edges.flatMap(([noun, length, px]) => {
    if (length === undefined) return []
    const limits = limitsOf(length)
    return [{ asked: `${noun} ${bandText(limits, ' px')}`, limits, px }]
  })
})

function partsOf(options: Static<typeof Options>, widthPx: number, heightPx: number): Part[] {
  return edgesOf(options).map(({ asked, limits, px }) => ({
    asked,
    side: sideOf(px(widthPx, heightPx), limits),
  }))
}

function fixFor(
  parts: readonly Part[],
  options: Static<typeof Options>,
  widthPx: number,
  heightPx: number,
): Pick<Finding, 'fix' | 'export'> {
  const turned = partsOf(options, heightPx, widthPx)
  if (turned.every((part) => part.side === 'inside'))
    return { fix: 'The picture is on its side: rotate it by 90°.' }
  const askedFor = listed(parts.map((part) => part.asked))
  if (parts.some((part) => part.side === 'low'))
    return {
      fix: `Export again from the original with ${askedFor}; enlarging this file adds no detail.`,
      export: { from: 'original', pixels: pixelsOf(options) },
    }
  // Sizing down would take from an edge that is right already.
  if (parts.some((part) => part.side === 'inside')) return { fix: `Crop the picture to ${askedFor}.` }
  return {
    fix: `Size the picture down to ${askedFor}.`,
    export: { from: 'file', pixels: pixelsOf(options) },
  }
}

function pixelsOf(options: Static<typeof Options>) {
  const { width, height, 'long-edge': longEdge, 'short-edge': shortEdge } = options
  const range = (length: Length) => closedEnds(limitsOf(length))
  return {
    ...(width !== undefined && { width: range(width) }),
    ...(height !== undefined && { height: range(height) }),
    ...(longEdge !== undefined && { longEdge: range(longEdge) }),
    ...(shortEdge !== undefined && { shortEdge: range(shortEdge) }),
  }
}

function limitsOf(length: Length): Limits {
  if (typeof length === 'number') return { min: length, max: length }
  return { min: length.min ?? -Infinity, max: length.max ?? Infinity }
}
