import { Type } from '@sinclair/typebox'
import type { Metadata } from '../../measure/schema/metadata.ts'
import type { Preview } from '../../measure/schema/preview-facts.ts'
import { listed, quantity } from '../../text/quantity.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule } from '../contract/rule.ts'
import { unmeasured } from '../judging/unmeasured.ts'
import { unreadableText } from '../judging/unreadable.ts'

export const stalePreview = defineRule({
  id: 'stale-preview',
  text: {
    title: 'Embedded previews and sizes show the finished picture',
    measures:
      'Each thumbnail that the file carries (EXIF, Photoshop, XMP, JFIF, TIFF), laid over the picture: whether it shows the same crop, the same side up, and the same retouch as far as its size lets tell. A crop or a spot of about 2 % of the long edge shows; less does not. Also the pixel sizes that EXIF and XMP state, against the pixels.',
    why: 'A thumbnail from before the crop or the retouch shows what was taken out, in file lists and to anyone who looks for it; wrong sizes mislead layout programs.',
    fix: 'Have the thumbnail and the size tags written anew on export, or leave them out.',
    example: 'stale-preview: true',
  },
  options: Type.Literal(true, {
    description: 'Previews in the file show the finished picture, and the sizes it states are true.',
  }),
  needs: ['metadata', 'decode'],
  judge({ measured }) {
    const { metadata, widthPx, heightPx } = measured
    if (!metadata) return unmeasured(measured, 'The metadata')
    return judgeParts(metadata, `${widthPx} x ${heightPx} px`)
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
      reason: `Whether every preview shows the finished picture can't be told: ${doubts.join('; ')}; export again without previews, or check by eye.`,
    }
  const reason = previews.length === 0 ? 'The file carries no preview' : `The ${listed(fresh)}`
  return { verdict: 'pass', measured, expected: EXPECTED, reason: `${reason}, and no size that is wrong.` }
}

function failed(stale: readonly Preview[], sizes: Metadata['statedSizes'], size: string): Finding {
  const wrong = sizes.map(({ where, widthPx, heightPx }) => `${where} says ${widthPx} x ${heightPx} px`)
  const sentences = [
    ...stale.map(sentenceOf),
    ...(wrong.length > 0 ? [`The picture has ${size}, but ${listed(wrong)}.`] : []),
  ]
  const fixes = [
    ...(stale.length > 0 ? ['have the thumbnail made anew on export, or leave it out'] : []),
    ...(sizes.length > 0 ? ['have the size tags written anew, or leave them out'] : []),
  ]
  const fix = listed(fixes)
  return {
    verdict: 'fail',
    measured: listed([...stale.map(({ where, shows }) => `${where}: ${shows}`), ...wrong]),
    expected: EXPECTED,
    reason: `${sentences.join(' ')} The spec asks that both show the finished picture.`,
    fix: `${fix.charAt(0).toUpperCase()}${fix.slice(1)}.`,
  }
}

function sentenceOf({ where, shows, crop, turn, changed, changedPct }: Preview): string {
  if (shows === 'other-crop' && crop)
    return `The ${where} shows another crop: the picture takes ${share(crop.width)} of its width and ${share(crop.height)} of its height.`
  if (shows === 'turned') return `The ${where} is not turned as the picture is, which is ${turn} beside it.`
  if (shows === 'other-tones') return `The ${where} shows other colors: a frame before the grade.`
  if (shows === 'other-retouch' && changed)
    return `The ${where} differs in ${quantity(changedPct ?? 0, ' %')} of the frame, around ${share(changed.x + changed.width / 2)} from the left and ${share(changed.y + changed.height / 2)} from the top: it shows a frame before the retouch, or another one.`
  return `The ${where} shows another picture, or quite another crop of it.`
}

function share(fraction: number): string {
  return `${Math.round(100 * fraction)} %`
}

const DOUBTS: Readonly<Record<NonNullable<Preview['doubt']>, string>> = {
  'not-read': 'is in a form that is not read, or damaged',
  'picture-not-decoded': 'was not compared, since the picture was not decoded',
  'too-small': 'is too small to compare',
  flat: 'shows hardly anything that could be compared',
  'hardly-different': 'differs from the picture a little more than making small explains',
}

function doubtOf({ where, doubt }: Preview): string {
  return `the ${where} ${doubt === null ? 'could not be compared' : DOUBTS[doubt]}`
}

/** Parts that may hold a preview and can't be looked into. */
function hidden(metadata: Metadata): string[] {
  const unreadable = unreadableText(metadata)
  const parts = metadata.opaque.filter(({ bytes }) => bytes === null || bytes >= LEAST_PREVIEW_BYTES)
  return [
    ...(unreadable === null ? [] : [unreadable]),
    ...parts.map(({ where }) => `${where} may hold one and can't be looked into`),
  ]
}
