import { Type } from '@sinclair/typebox'
import type { Metadata } from '../../measure/schema/metadata.ts'
import type { Preview } from '../../measure/schema/preview-facts.ts'
import { capitalized } from '../../text/capitalized.ts'
import { listed, quantity } from '../../text/quantity.ts'
import { sizeText } from '../../text/size.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { unreadableText } from '../judging/unreadable.ts'

export const stalePreview = defineRule({
  id: 'stale-preview',
  severity: 'file',
  dependsOn: 'export',
  text: {
    title: 'Embedded previews and stated sizes match the picture',
    measures:
      'Each thumbnail in the file (EXIF, Photoshop, XMP, JFIF, TIFF) is compared with the picture: same crop, same side up, and same retouch as far as its size can show. A crop or spot of about 2 % of the long edge is found; smaller ones are not. The pixel sizes stated in EXIF and XMP are compared with the pixels, too.',
    why: 'A thumbnail from before the crop or the retouch shows what was removed, in file lists and to anyone who looks; wrong sizes mislead layout programs.',
    fix: 'Take the thumbnail and the size tags out, or let the export write them anew.',
    example: 'stale-preview: true',
  },
  options: Type.Literal(true, {
    description: 'Previews in the file show the finished picture, and the sizes it states are right.',
  }),
  needs: ['metadata', 'decode'],
  judge({ measured }) {
    const { metadata, widthPx, heightPx } = measured
    if (!metadata) return unmeasured(measured, 'The metadata')
    return judgeParts(metadata, sizeText({ widthPx, heightPx }))
  },
})

const EXPECTED = 'previews and sizes of the finished picture'
/** Fewest bytes in which a preview can hide. @choice no source: a picture of thumbnail size, 160 px, takes more. */
const LEAST_PREVIEW_BYTES = 1000

function judgeParts(metadata: Metadata, size: string): Finding {
  const { previews, statedSizes } = metadata
  const stale = previews.filter(({ shows }) => shows !== null && shows !== 'same')
  const sizes = statedSizes.filter((one) => one.stale)
  if (stale.length + sizes.length > 0) return failed(stale, sizes, size)
  const doubts = [...previews.filter(({ shows }) => shows === null).map(doubtOf), ...hidden(metadata)]
  const fresh = previews.map(({ where, shows }) =>
    shows === 'same' ? `${where} shows the picture` : `${where} unclear`,
  )
  const measured = listed(fresh.length === 0 ? ['no preview'] : fresh)
  if (doubts.length > 0)
    return {
      verdict: 'unsure',
      measured,
      expected: EXPECTED,
      reason: `Not every preview could be compared with the finished picture: ${doubts.join('; ')}. Export again without previews, or check by eye.`,
    }
  const reason = previews.length === 0 ? 'The file has no preview' : `The ${listed(fresh)}`
  return { verdict: 'pass', measured, expected: EXPECTED, reason: `${reason}; no stated size is wrong.` }
}

function failed(stale: readonly Preview[], sizes: Metadata['statedSizes'], size: string): Finding {
  const wrong = sizes.map(
    ({ where, widthPx, heightPx }) => `${where} says ${sizeText({ widthPx, heightPx })}`,
  )
  const sentences = [
    ...stale.map(sentenceOf),
    ...(wrong.length > 0 ? [`The picture is ${size}, but ${listed(wrong)}.`] : []),
  ]
  const fixes = [
    ...(stale.length > 0 ? ['take the thumbnail out, or let the export make a new one'] : []),
    ...(sizes.length > 0 ? ['take the size tags out, or let the export rewrite them'] : []),
  ]
  const fix = fixes.join('; ')
  const leaveOut = [
    ...(stale.length > 0 ? ['preview' as const] : []),
    ...(sizes.length > 0 ? ['stated-sizes' as const] : []),
  ]
  return {
    verdict: 'fail',
    measured: listed([...stale.map(({ where, shows }) => `${where}: ${SHOWN[shows ?? 'same']}`), ...wrong]),
    expected: EXPECTED,
    reason: `${sentences.join(' ')} The spec asks that previews and sizes match the finished picture.`,
    fix: `${capitalized(fix)}.`,
    export: { from: 'file', leaveOut },
  }
}

const SHOWN: Readonly<Record<NonNullable<Preview['shows']>, string>> = {
  same: 'the picture',
  'other-crop': 'another crop',
  turned: 'turned',
  'other-tones': 'other colors',
  'other-retouch': 'before the retouch, or another frame',
  'other-picture': 'another picture',
}

function sentenceOf({ where, shows, crop, turn, changed, changedPct }: Preview): string {
  if (shows === 'other-crop' && crop)
    return `The ${where} shows a different crop: the picture covers ${share(crop.width)} of its width and ${share(crop.height)} of its height.`
  if (shows === 'turned') return `The ${where} is turned differently: the picture is ${turn} beside it.`
  if (shows === 'other-tones')
    return `The ${where} shows different colors: it dates from before the color grade.`
  if (shows === 'other-retouch' && changed)
    return `The ${where} differs in ${quantity(changedPct ?? 0, ' %')} of the frame, around ${share(changed.x + changed.width / 2)} from the left and ${share(changed.y + changed.height / 2)} from the top: it dates from before the retouch, or shows another frame.`
  return `The ${where} shows another picture, or a very different crop of it.`
}

function share(fraction: number): string {
  return `${Math.round(100 * fraction)} %`
}

const DOUBTS: Readonly<Record<NonNullable<Preview['doubt']>, string>> = {
  'not-read': 'is damaged or in an unsupported form',
  'picture-not-decoded': 'was not compared, since the picture was not decoded',
  'too-small': 'is too small to compare',
  flat: 'shows too little to compare',
  'hardly-different': 'differs from the picture slightly more than downsizing explains',
}

function doubtOf({ where, doubt }: Preview): string {
  return `the ${where} ${doubt === null ? 'could not be compared' : DOUBTS[doubt]}`
}

/** Parts that may hold a preview and can't be read. */
function hidden(metadata: Metadata): string[] {
  const unreadable = unreadableText(metadata)
  const parts = metadata.opaque.filter(({ bytes }) => bytes === null || bytes >= LEAST_PREVIEW_BYTES)
  return [
    ...(unreadable === null ? [] : [unreadable]),
    ...parts.map(({ where }) => `${where} may contain one and can't be read`),
  ]
}
