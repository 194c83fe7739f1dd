import { type Static, Type } from '@sinclair/typebox'
import type { Jpeg } from '../../measure/schema/measurements.ts'
import { closedEnds, type Limits, sideOf } from '../../numbers/limits.ts'
import { listed } from '../../text/quantity.ts'
import type { ExportSettings } from '../contract/export-settings.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { bandText, emptyRange } from '../judging/band.ts'
import { formatName } from '../judging/format-names.ts'
import { skipped, unmeasured } from '../judging/unmeasured.ts'

const Percent = Type.Integer({ minimum: 1, maximum: 100 })
const Subsampling = Type.Union(
  ['4:4:4', '4:2:2', '4:2:0', '4:4:0', '4:1:1'].map((name) => Type.Literal(name)),
)
const Options = Type.Object(
  {
    quality: Type.Optional(
      Type.Object(
        { min: Type.Optional(Percent), max: Type.Optional(Percent) },
        {
          additionalProperties: false,
          minProperties: 1,
          description: 'JPEG quality on the IJG scale, 1 to 100, both ends included.',
        },
      ),
    ),
    subsampling: Type.Optional(
      Type.Union([Subsampling, Type.Array(Subsampling, { minItems: 1, uniqueItems: true })], {
        description: 'Chroma subsampling, one or a list of those allowed: "4:4:4" keeps all color detail.',
      }),
    ),
    progressive: Type.Optional(
      Type.Boolean({ description: 'true for progressive JPEG, false for sequential (baseline).' }),
    ),
  },
  { additionalProperties: false, minProperties: 1, description: 'How a JPEG is compressed.' },
)
type Options = Static<typeof Options>

export const compression = defineRule({
  id: 'compression',
  severity: 'file',
  dependsOn: 'export',
  text: {
    title: 'How a JPEG is compressed',
    measures:
      'Quality on the IJG scale, read from the quantization tables when these are exactly those of ITU-T T.81 Annex K, scaled; chroma subsampling; progressive or sequential. Other formats are skipped.',
    why: 'Low quality leaves blocks in skin and backdrop; some print systems refuse progressive files.',
    fix: 'Export again from the original; re-saving a JPEG at a higher quality restores nothing.',
    example: 'compression: { quality: { min: 90 }, subsampling: "4:4:4" }',
  },
  options: Options,
  needs: ['file'],
  saving: ({ quality, subsampling, progressive }) => ({
    ...(quality && { quality: closedEnds(limitsOf(quality)) }),
    ...(subsampling && { subsampling: [subsampling].flat() }),
    ...(progressive !== undefined && { progressive }),
  }),
  problem: ({ quality }) => (quality ? emptyRange(limitsOf(quality)) : null),
  judge({ measured }, options) {
    const { jpeg, format } = measured
    if (!jpeg) {
      if (measured.fault || format === null || format === 'jpeg')
        return unmeasured(measured, 'The compression')
      return skipped(`This rule applies to JPEG only; the file is ${formatName(format)}.`)
    }
    return judgeParts(partsOf(jpeg, options))
  },
})

interface Part {
  readonly verdict: 'pass' | 'fail' | 'unsure'
  readonly measured: string
  readonly asked: string
  readonly sentence: string
  readonly settings: Partial<ExportSettings>
  /** Whether the file itself can be made to meet it without loss: only how its scans are ordered. */
  readonly isLossless?: boolean
}

function judgeParts(parts: readonly Part[]): Finding {
  const missed = parts.filter((part) => part.verdict === 'fail')
  const untold = parts.some((part) => part.verdict === 'unsure')
  // What is met needs no word where something is not.
  const open = parts.filter((part) => part.verdict !== 'pass')
  const told = open.length > 0 ? open : parts
  const finding = {
    measured: listed(told.map((part) => part.measured)),
    expected: listed(told.map((part) => part.asked)),
    reason: told.map((part) => part.sentence).join(' '),
  }
  if (missed.length > 0) return { verdict: 'fail', ...finding, ...fixOf(missed) }
  return { verdict: untold ? 'unsure' : 'pass', ...finding }
}

/** The least that makes the file meet what it misses. */
function fixOf(missed: readonly Part[]): Pick<Finding, 'fix' | 'export'> {
  const asked = listed(missed.map((part) => part.asked))
  const isLossless = missed.every((part) => part.isLossless)
  const settings: Partial<ExportSettings> = Object.assign({}, ...missed.map((part) => part.settings))
  return {
    fix: isLossless
      ? `Convert this file to ${asked} without loss (with jpegtran), or export it again that way.`
      : `Export again from the original with ${asked}; re-saving this file restores no detail.`,
    export: { from: isLossless ? 'file' : 'original', ...settings },
  }
}

function partsOf(jpeg: Jpeg, { quality, subsampling, progressive }: Options): Part[] {
  const parts: Part[] = []
  if (quality) parts.push(qualityPart(jpeg, limitsOf(quality)))
  if (subsampling) parts.push(subsamplingPart(jpeg, [subsampling].flat()))
  if (progressive !== undefined) parts.push(progressivePart(jpeg, progressive))
  return parts
}

function qualityPart({ quality }: Jpeg, limits: Limits): Part {
  const range = bandText(limits, '')
  const asked = `quality ${range}`
  const settings = { quality: closedEnds(limits) }
  if (quality === null)
    return {
      settings,
      verdict: 'unsure',
      measured: 'quality unknown',
      asked,
      sentence: `The JPEG quality is unknown: the quantization tables are not the standard ones (ITU-T T.81 Annex K); some editors use a scale of their own. The spec asks for ${range}; check skin and backdrop by eye at 100 %, or ask which setting the file was saved with.`,
    }
  return {
    settings,
    verdict: sideOf(quality, limits) === 'inside' ? 'pass' : 'fail',
    measured: `quality ${quality}`,
    asked,
    sentence: `The JPEG quality is ${quality}; the spec asks for ${range}.`,
  }
}

function subsamplingPart({ subsampling }: Jpeg, allowed: readonly string[]): Part {
  const asked = `subsampling ${listed(allowed, 'or')}`
  const settings = { subsampling: [...allowed] }
  if (subsampling === 'none')
    return {
      settings,
      verdict: 'pass',
      measured: 'no chroma',
      asked,
      sentence: 'The JPEG is grayscale and has no chroma to subsample.',
    }
  if (subsampling === 'other')
    return {
      settings,
      verdict: 'fail',
      measured: 'unusual subsampling',
      asked,
      sentence: `The chroma subsampling is unusual; the spec asks for ${listed(allowed, 'or')}.`,
    }
  return {
    settings,
    verdict: allowed.includes(subsampling) ? 'pass' : 'fail',
    measured: `subsampling ${subsampling}`,
    asked,
    sentence: `The chroma subsampling is ${subsampling}; the spec asks for ${listed(allowed, 'or')}.`,
  }
}

function progressivePart({ progressive }: Jpeg, wanted: boolean): Part {
  const word = (is: boolean) => (is ? 'progressive' : 'sequential (baseline)')
  return {
    settings: { progressive: wanted },
    verdict: progressive === wanted ? 'pass' : 'fail',
    measured: word(progressive),
    asked: word(wanted),
    sentence: `The JPEG is ${word(progressive)}; the spec asks for ${word(wanted)}.`,
    isLossless: true,
  }
}

function limitsOf({ min, max }: NonNullable<Options['quality']>): Limits {
  return { min: min ?? -Infinity, max: max ?? Infinity }
}
