import { Type } from '@sinclair/typebox'
import { fitsRatio, plainRatio, type Ratio, ratioOf } from '../../numbers/ratio.ts'
import { defineRule } from '../contract/rule.ts'
import { unmeasured } from '../judging/unmeasured.ts'

export const aspectRatio = defineRule({
  id: 'aspect-ratio',
  text: {
    title: 'Proportion of width to height',
    measures:
      'Width and height in pixels as displayed. One edge may be off the exact ratio by up to 1 px, since most sizes do not divide evenly: 1638 x 2048 px is 4:5.',
    why: 'A picture of another ratio is cut or squeezed by the page that shows it.',
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
    const found = `${widthPx} x ${heightPx} px${plain === null ? '' : ` (${plain})`}`
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
  if (fitsRatio(h, w, asked)) return 'The picture lies on its side: turn it upright by 90°.'
  if (w * high > h * wide) {
    const width = Math.round((h * wide) / high)
    return `Crop ${w - width} px off the width, to ${width} x ${h} px, with the face kept where the spec wants it.`
  }
  const height = Math.round((w * high) / wide)
  return `Crop ${h - height} px off the height, to ${w} x ${height} px, with the face kept where the spec wants it.`
}
