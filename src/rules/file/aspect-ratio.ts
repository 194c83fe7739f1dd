import { Type } from '@sinclair/typebox'
import { fitsRatio, plainRatio, type Ratio, ratioOf } from '../../numbers/ratio.ts'
import { sizeText } from '../../text/size.ts'
import { defineRule } from '../contract/rule.ts'
import { unmeasured } from '../judging/unmeasured.ts'

export const aspectRatio = defineRule({
  id: 'aspect-ratio',
  severity: 'picture',
  dependsOn: 'crop',
  text: {
    title: 'Ratio of width to height',
    measures:
      'Width and height in pixels, as displayed. One edge may be up to 1 px off the exact ratio, since most sizes do not divide evenly: 1638 x 2048 px counts as 4:5.',
    why: 'A page crops or squeezes a picture that has the wrong ratio.',
    fix: 'Crop the longer side to the ratio, keeping headroom and centering.',
    example: 'aspect-ratio: "4:5"',
  },
  options: Type.String({
    pattern: '^[0-9]+(\\.[0-9]+)?:[0-9]+(\\.[0-9]+)?$',
    description: 'Width to height, in quotes: "4:5", "1:1", "8.5:11".',
  }),
  needs: ['file'],
  problem(ratio) {
    const { wide, high } = ratioOf(ratio)
    return wide > 0 && high > 0 ? null : `${ratio} is not a ratio: both numbers must be above 0.`
  },
  framing: (ratio) => ({ 'aspect-ratio': ratioOf(ratio) }),
  judge({ measured }, ratio) {
    const { widthPx, heightPx } = measured
    if (!widthPx || !heightPx) return unmeasured(measured, 'The aspect ratio')
    const plain = plainRatio(widthPx, heightPx)
    const found = `${sizeText({ widthPx, heightPx })}${plain === null ? '' : ` (${plain})`}`
    const finding = {
      measured: found,
      expected: ratio,
      reason: `The picture is ${found}; the spec asks for ${ratio}.`,
    }
    const asked = ratioOf(ratio)
    if (fitsRatio(widthPx, heightPx, asked)) return { verdict: 'pass', ...finding }
    return { verdict: 'fail', ...finding, fix: fixFor(widthPx, heightPx, asked) }
  },
})

function fixFor(w: number, h: number, asked: Ratio): string {
  const { wide, high } = asked
  if (fitsRatio(h, w, asked)) return 'The picture is on its side: rotate it by 90°.'
  if (w * high > h * wide) {
    const width = Math.round((h * wide) / high)
    return `Crop ${w - width} px off the width, to ${sizeText({ widthPx: width, heightPx: h })}, keeping the face where the spec asks for it.`
  }
  const height = Math.round((w * high) / wide)
  return `Crop ${h - height} px off the height, to ${sizeText({ widthPx: w, heightPx: height })}, keeping the face where the spec asks for it.`
}
