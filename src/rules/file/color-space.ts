import { type Static, Type } from '@sinclair/typebox'
import type { Color, Measurements, Profile } from '../../measure/schema/measurements.ts'
import { quoted } from '../../text/quoted.ts'
import { COLOR_SPACES, type ColorSpace } from '../contract/export-settings.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { COLORLESS, isColorless } from '../judging/unseen.ts'

const Asked = Type.Unsafe<ColorSpace>(
  Type.Union(
    COLOR_SPACES.map((name) => Type.Literal(name)),
    { description: 'The color space; "gray" for grayscale.' },
  ),
)
const Options = Type.Union(
  [
    Asked,
    Type.Object(
      {
        profile: Asked,
        untagged: Type.Optional(
          Type.Union([Type.Literal('allow'), Type.Literal('refuse')], {
            default: 'refuse',
            description:
              'Whether a file without a profile may pass; it is then read as sRGB, or as plain gray.',
          }),
        ),
        'allow-monochrome': Type.Optional(
          Type.Boolean({
            default: false,
            description: 'Whether a black-and-white picture may pass where a space in color is asked for.',
          }),
        ),
      },
      { additionalProperties: false },
    ),
  ],
  { description: 'The color space asked for, as a name or as { profile, untagged, allow-monochrome }.' },
)
type Options = Static<typeof Options>

export const colorSpace = defineRule({
  id: 'color-space',
  severity: 'picture',
  dependsOn: 'export',
  text: {
    title: 'Color space and embedded profile',
    measures: `The embedded ICC profile, identified by its content (colorants and tone curve), not by its name. Files without a profile fail unless the spec allows them. So does a picture without color where the space asked for has colors: one of whose pixels fewer than 0.5 % reach a chroma of ${COLORLESS} C*ab (D50). A toned picture, such as in sepia, counts as one in color.`,
    why: 'In the wrong color space skin looks dull or garish, and each program shows the picture differently.',
    fix: 'Convert to the color space asked for and embed its profile; do not just assign another one.',
    example: 'color-space: { profile: sRGB, allow-monochrome: true }',
  },
  options: Options,
  needs: ['file'],
  // Only its pixels tell whether a picture has color.
  alsoNeeds: (options) => (asksForColor(options) ? ['decode'] : []),
  saving: (options) => ({ colorSpace: typeof options === 'string' ? options : options.profile }),
  judge({ measured }, options) {
    const { color } = measured
    if (!color) return unmeasured(measured, 'The color space')
    const asked = setting(options)
    const { profile: wanted, untagged = 'refuse', 'allow-monochrome': monochrome = false } = asked
    const finding = judgeColor(color, wanted, untagged === 'allow', monochrome)
    return asksForColor(options) ? inColor(finding, measured, wanted) : finding
  },
})

function setting(options: Options): Exclude<Options, string> {
  return typeof options === 'string' ? { profile: options } : options
}

function asksForColor(options: Options): boolean {
  const { profile, 'allow-monochrome': monochrome = false } = setting(options)
  return profile !== 'gray' && !monochrome
}

/** The finding on a picture that is to be in color: one that has none fails for that, whatever else is right with it. */
function inColor(finding: Finding, measured: Measurements, wanted: ColorSpace): Finding {
  if (isColorless(measured))
    return {
      verdict: 'fail',
      measured: `${finding.measured}, black and white`,
      expected: `${wanted}, in color`,
      reason: `The picture has no color; the spec asks for ${wanted}, in color.`,
      export: { from: 'original', colorSpace: wanted },
      fix: `Deliver the color version in ${wanted}. If black-and-white portraits are wanted, set allow-monochrome: true under color-space in the spec.`,
    }
  if (measured.peakChromaC === null && finding.verdict === 'pass')
    return unmeasured(measured, 'Whether the picture is in color')
  return finding
}

function judgeColor(
  color: Color,
  wanted: ColorSpace,
  untaggedAllowed: boolean,
  monochrome: boolean,
): Finding {
  const measured = spaceName(color)
  const finding = { measured, expected: wanted }
  if (color.space !== (wanted === 'gray' ? 'gray' : 'rgb'))
    return {
      verdict: 'fail',
      ...finding,
      reason: `The picture is ${measured}; the spec asks for ${wanted}.`,
      ...(color.space === 'gray' && monochrome
        ? {
            fix: `Convert the picture to ${wanted} and embed that profile.`,
            export: { from: 'file', colorSpace: wanted },
          }
        : {
            fix: `Ask for the ${wanted === 'gray' ? 'grayscale' : 'RGB'} original and export it in ${wanted}; converting this file can't bring its colors back.`,
            export: { from: 'original', colorSpace: wanted },
          }),
    }
  if (color.profile === 'none') return judgeUntagged(finding, wanted, untaggedAllowed)
  const reason = `The color space is ${measured}; the spec asks for ${wanted}.${liesIn(color)}`
  if (wanted === 'gray' || color.profile === wanted) return { verdict: 'pass', ...finding, reason }
  return {
    verdict: 'fail',
    ...finding,
    reason,
    fix: `Convert the picture to ${wanted} and embed that profile; don't just assign it.`,
    export: { from: 'file', colorSpace: wanted },
  }
}

function judgeUntagged(
  finding: { measured: string; expected: ColorSpace },
  wanted: ColorSpace,
  allowed: boolean,
): Finding {
  const found = 'The file has no color profile'
  // Without a profile a browser takes colors for sRGB: W3C, CSS Color Module Level 4, "Color Spaces of Untagged Colors".
  if (allowed && (wanted === 'sRGB' || wanted === 'gray'))
    return {
      verdict: 'pass',
      ...finding,
      reason: `${found}, which the spec allows; it is read as ${wanted}.`,
    }
  return {
    verdict: 'fail',
    ...finding,
    reason: allowed
      ? `${found}, so it is read as sRGB; the spec asks for ${wanted}.`
      : `${found}; the spec asks for ${wanted} with its profile embedded.`,
    fix: `Export again with the ${wanted} profile embedded. Assign a profile only if you know which color space the file was edited in.`,
    export: { from: 'original', colorSpace: wanted },
  }
}

function spaceName({ space, profile, profileName }: Color): string {
  const carried = profileName === null ? '' : ` (profile ${quoted(profileName)})`
  if (space === 'cmyk') return `CMYK${carried}`
  if (profile === 'none') return space === 'gray' ? 'grayscale without a profile' : 'RGB without a profile'
  if (space === 'gray') return `grayscale${carried}`
  if (profile !== 'other') return profile
  return profileName === null ? 'an unknown RGB profile' : `another RGB space${carried}`
}

const CLAIMS: readonly (readonly [RegExp, Profile])[] = [
  [/adobe ?rgb/i, 'Adobe RGB (1998)'],
  [/display ?p3/i, 'Display P3'],
  [/prophoto|romm ?rgb/i, 'ProPhoto RGB'],
  [/srgb/i, 'sRGB'],
]

/** A sentence when the profile's name claims another known space than its content is, else nothing. */
function liesIn({ profile, profileName }: Color): string {
  const claim = CLAIMS.find(([pattern]) => profileName !== null && pattern.test(profileName))?.[1]
  if (profileName === null || claim === undefined || claim === profile) return ''
  const content = profile === 'other' ? 'something else' : profile
  return ` The profile is named ${quoted(profileName)}, but its content is ${content}.`
}
