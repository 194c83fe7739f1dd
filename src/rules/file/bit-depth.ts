import { Type } from '@sinclair/typebox'
import { defineRule } from '../contract/rule.ts'
import { unmeasured } from '../judging/unmeasured.ts'

/** Depths that can be asked for, bits per channel. @choice common practice, no source: 8 for delivery, 16 for editing. */
export const BIT_DEPTHS = [8, 16] as const

export const bitDepth = defineRule({
  id: 'bit-depth',
  severity: 'file',
  dependsOn: 'export',
  text: {
    title: 'Bits per channel',
    measures:
      'The bits stored for each channel of a pixel: 8 for delivery, 16 for files that are edited further.',
    why: 'Websites expect 8 bits; further retouching needs 16.',
    fix: 'Export again from the original at the bit depth asked for.',
    example: 'bit-depth: 8',
  },
  options: Type.Union([Type.Literal(BIT_DEPTHS[0]), Type.Literal(BIT_DEPTHS[1])], {
    description: 'Bits per channel: 8 or 16.',
  }),
  needs: ['file'],
  saving: (bitsPerChannel) => ({ bitsPerChannel }),
  judge({ measured }, bits) {
    const { bitsPerChannel } = measured
    if (bitsPerChannel === null) return unmeasured(measured, 'The bit depth')
    const finding = {
      measured: `${bitsPerChannel} bit`,
      expected: `${bits} bit`,
      reason: `The file has ${bitsPerChannel} bits per channel; the spec asks for ${bits}.`,
    }
    if (bitsPerChannel === bits) return { verdict: 'pass', ...finding }
    return {
      verdict: 'fail',
      ...finding,
      fix:
        bitsPerChannel < bits
          ? `Export again from the original at ${bits} bits${bits === BIT_DEPTHS[1] ? ', as TIFF or PNG' : ''}; converting this file up adds no tones.`
          : `Convert the file to ${bits} bits per channel as the last step of the retouch.`,
      export: { from: bitsPerChannel < bits ? 'original' : 'file', bitsPerChannel: bits },
    }
  },
})
