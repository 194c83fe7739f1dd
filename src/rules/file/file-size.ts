import { type Static, Type } from '@sinclair/typebox'
import { closedEnds, type Limits, sideOf } from '../../numbers/limits.ts'
import { asked, quantity } from '../../text/quantity.ts'
import { defineRule } from '../contract/rule.ts'
import { unmeasured } from '../judging/unmeasured.ts'

/** Bytes in each unit, by its name in small letters. @source SI prefixes, which IEC 80000-13:2008 keeps for powers of ten, as on drives and in mail limits. */
const BYTES = { b: 1, kb: 1e3, mb: 1e6, gb: 1e9 } as const

const Size = Type.String({
  pattern: '^[0-9]+(\\.[0-9]+)? ?(B|kB|KB|MB|GB)$',
  description: 'A size with its unit: "200 kB", "3 MB". 1 kB is 1,000 bytes, 1 MB is 1,000,000.',
})
const Options = Type.Object(
  { min: Type.Optional(Size), max: Type.Optional(Size) },
  { additionalProperties: false, minProperties: 1, description: 'How large the file may be.' },
)

export const fileSize = defineRule({
  id: 'file-size',
  severity: 'file',
  dependsOn: 'export',
  text: {
    title: 'Size of the file',
    measures: 'The size of the file as delivered. 1 kB is 1,000 bytes and 1 MB is 1,000,000 bytes.',
    why: 'Large files are refused or load slowly; very small ones have lost detail.',
    fix: 'Export again with another quality or pixel size.',
    example: 'file-size: { max: 3 MB }',
  },
  options: Options,
  needs: ['file'],
  saving: (options) => ({ bytes: closedEnds(limitsOf(options)) }),
  problem({ min, max }) {
    if (!min || !max || bytesOf(min) <= bytesOf(max)) return null
    return `min is ${min} and max is ${max}, so nothing fits; swap them.`
  },
  judge({ measured }, options) {
    const { bytes, fault } = measured
    if (fault && fault.kind !== 'too-large') return unmeasured(measured, 'The file size')
    const limits = limitsOf(options)
    const [unit, factor] = unitFor(bytes)
    const scaled = { min: limits.min / factor, max: limits.max / factor }
    const size = quantity(bytes / factor, unit, scaled)
    const expected = rangeText(limits)
    const finding = {
      measured: size,
      expected,
      reason: `The file is ${size}; the spec asks for ${expected}.`,
    }
    const side = sideOf(bytes, limits)
    if (side === 'inside') return { verdict: 'pass', ...finding }
    return {
      verdict: 'fail',
      ...finding,
      fix:
        side === 'high'
          ? 'Export again from the original at a lower quality or pixel size, within the spec.'
          : 'Export again from the original at a higher quality or pixel size; saving this file larger adds no detail.',
      export: { from: 'original', bytes: closedEnds(limits) },
    }
  },
})

function limitsOf({ min, max }: Static<typeof Options>): Limits {
  return { min: min ? bytesOf(min) : 0, max: max ? bytesOf(max) : Infinity }
}

function bytesOf(size: string): number {
  const number = Number.parseFloat(size)
  const unit = size.replace(/^[0-9.]+ ?/, '').toLowerCase()
  return Math.round(number * (new Map<string, number>(Object.entries(BYTES)).get(unit) ?? 1))
}

function unitFor(bytes: number): readonly [string, number] {
  if (bytes >= BYTES.mb) return [' MB', BYTES.mb]
  return bytes >= BYTES.kb ? [' kB', BYTES.kb] : [' B', BYTES.b]
}

function rangeText({ min, max }: Limits): string {
  if (min === 0) return `at most ${sizeText(max)}`
  if (max === Infinity) return `at least ${sizeText(min)}`
  return `${sizeText(min)} to ${sizeText(max)}`
}

function sizeText(bytes: number): string {
  const [unit, factor] = unitFor(bytes)
  return asked(bytes / factor, unit)
}
