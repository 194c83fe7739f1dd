import { type Static, Type } from '@sinclair/typebox'
import { deltaE00 } from '../../color/ciede2000.ts'
import { type Lab, rgbToLab } from '../../color/lab.ts'
import type { Background } from '../../measure/schema/measurements.ts'
import { listed, quantity } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { bandText, limitsOf } from '../judging/band.ts'
import { judgeLimits } from '../judging/judge-limits.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { hueWord, oppositeHue } from './hue.ts'

/** Least difference in L* or C* that a remedy mentions, L*. @choice common practice, no source: about the least that an eye can see. */
const VISIBLE = 1

const closed = { additionalProperties: false }
const MaxChroma = Type.Object(
  {
    'max-chroma': Type.Number({
      minimum: 0,
      description: 'Largest CIE chroma C*ab (D50) of the backdrop; 0 is neutral, 2 is barely visible.',
    }),
  },
  closed,
)
const NamedColor = Type.Object(
  {
    color: Type.String({
      pattern: '^#[0-9a-fA-F]{6}$',
      description: 'The color asked for, as an sRGB code in quotes: "#f4f4f2".',
    }),
    tolerance: Type.Number({
      minimum: 0,
      description: 'Largest color difference ΔE00 (CIEDE2000) from that color.',
    }),
  },
  closed,
)
const Options = Type.Union([MaxChroma, NamedColor], {
  description: 'Either { max-chroma } for a neutral backdrop or { color, tolerance } for a named color.',
})

export const backgroundTint = defineRule({
  id: 'background-tint',
  severity: 'picture',
  dependsOn: 'scene',
  text: {
    title: 'Color of the backdrop',
    measures:
      'The median color of the backdrop in CIELAB (D50) without hair edges: its chroma C*ab, or its difference ΔE00 (CIEDE2000) from a named color.',
    why: 'A white or gray backdrop that leans yellow in one portrait and blue in the next spoils the set.',
    fix: 'Correct the white balance, or shift the backdrop alone toward neutral or the named color in retouching.',
    example: 'background-tint: { max-chroma: 3 }',
  },
  options: Options,
  needs: ['background'],
  judge({ measured }, options) {
    const { background } = measured
    if (!background) return unmeasured(measured, 'The color of the backdrop')
    return 'color' in options ? judgeColor(background, options) : judgeChroma(background, options)
  },
})

function judgeChroma(background: Background, options: Static<typeof MaxChroma>): Finding {
  const { hueDeg, chromaC, confidence, doubts } = background
  const limits = limitsOf({ max: options['max-chroma'] })
  const asked = bandText(limits, ' C*')
  const fix = () =>
    `Remove the tint: correct the backdrop toward ${oppositeHue(hueDeg)}, by white balance or in the backdrop alone.`
  return judgeLimits({
    noun: 'The tint of the backdrop',
    value: chromaC,
    limits,
    confidence,
    doubts,
    found: (value) => {
      const short = quantity(value, ' C*', limits)
      const towards = value >= VISIBLE ? ` toward ${hueWord(hueDeg)}` : ''
      return { short: `${short}${towards}`, long: `The tint of the backdrop is ${short}${towards}` }
    },
    asked: { short: asked, long: asked },
    low: fix,
    high: fix,
  })
}

function judgeColor(background: Background, { color, tolerance }: Static<typeof NamedColor>): Finding {
  const { lab, confidence, doubts } = background
  const target = labOf(color)
  const limits = limitsOf({ max: tolerance })
  const short = bandText(limits, ' ΔE00')
  const asked = { short: `${short} from ${color}`, long: `${short} from ${color}` }
  const fix = () => fixTowards(color, lab, target)
  return judgeLimits({
    noun: 'The color of the backdrop',
    value: deltaE00(lab, target),
    limits,
    confidence,
    doubts,
    found: (value) => ({
      short: quantity(value, ' ΔE00', limits),
      long: `The color of the backdrop is ${quantity(value, ' ΔE00', limits)} from ${color}`,
    }),
    asked,
    low: fix,
    high: fix,
  })
}

function fixTowards(color: string, found: Lab, wanted: Lab): string {
  const lighter = found.L - wanted.L
  const a = found.a - wanted.a
  const b = found.b - wanted.b
  const is: string[] = []
  const make: string[] = []
  if (Math.abs(lighter) >= VISIBLE) {
    is.push(lighter > 0 ? 'too light' : 'too dark')
    make.push(lighter > 0 ? 'darker' : 'lighter')
  }
  if (Math.hypot(a, b) >= VISIBLE) {
    const hueDeg = (Math.atan2(b, a) * 180) / Math.PI
    is.push(`off toward ${hueWord(hueDeg)}`)
    make.push(`more ${oppositeHue(hueDeg)}`)
  }
  if (is.length === 0) return `Bring the backdrop to ${color} in retouching; it is only slightly off.`
  return `The backdrop is ${listed(is)}: make it ${listed(make)}, to match ${color}.`
}

function labOf(color: string): Lab {
  const code = Number.parseInt(color.slice(1), 16)
  return rgbToLab((code >> 16) & 255, (code >> 8) & 255, code & 255)
}
