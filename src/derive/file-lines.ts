import { type Measurements, PROFILES } from '../measure/schema/measurements.ts'
import { BIT_DEPTHS } from '../rules/file/bit-depth.ts'
import { isColorless } from '../rules/judging/unseen.ts'
import { type Line, proposeSame } from './proposals.ts'

/** What a lowest JPEG quality is rounded down to. @choice common practice, no source: people ask for 80, 85 or 90. */
const QUALITY_STEP = 5

/** Least JPEG quality that is proposed at most. @choice common practice, no source: files of 100 do not show that their client asked for more than people ask for. */
const HIGHEST_LEAST_QUALITY = 90

/** Black-and-white portraits among those that are right show that they are allowed. */
function colorSpaceSetting(profile: string, hasMonochrome: boolean): string {
  const name = profile === 'Adobe RGB (1998)' ? JSON.stringify(profile) : profile
  return hasMonochrome ? `{ profile: ${name}, allow-monochrome: true }` : name
}

/** The lines on the files themselves: format, color, depth, orientation and compression. */
export function fileLines(files: readonly Measurements[]): Line[] {
  const named = PROFILES.filter((name) => name !== 'other' && name !== 'none')
  const qualities = files.flatMap(({ jpeg }) => jpeg?.quality ?? [])
  const jpegs = files.filter(({ jpeg }) => jpeg !== null)
  const [lowest, highest] = [Math.min(...qualities), Math.max(...qualities)]
  const least = Math.min(HIGHEST_LEAST_QUALITY, Math.floor(lowest / QUALITY_STEP) * QUALITY_STEP)
  return [
    proposeSame(
      'file-format',
      files,
      ({ format }) => format,
      (format) => `{ allow: [${format}] }`,
    ),
    proposeSame(
      'color-space',
      files,
      ({ color }) => named.find((name) => color?.space === 'rgb' && color.profile === name) ?? null,
      (profile) => colorSpaceSetting(profile, files.some(isColorless)),
    ),
    proposeSame(
      'bit-depth',
      files,
      ({ bitsPerChannel: bits }) => BIT_DEPTHS.find((depth) => depth === bits) ?? null,
      String,
    ),
    proposeSame(
      'orientation',
      files,
      ({ orientationTag: tag }) => (tag === null || tag === 1 ? 'upright' : null),
      String,
    ),
    jpegs.length > 0 && qualities.length === jpegs.length && least >= 1
      ? {
          setting: `compression: { quality: { min: ${least} } }`,
          note: `JPEG quality ${lowest === highest ? lowest : `${lowest} to ${highest}`}`,
          outliers: [],
        }
      : {
          setting: null,
          note: 'compression was left out: the JPEG quality is not known for all',
          outliers: [],
        },
  ]
}
