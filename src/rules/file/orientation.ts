import { Type } from '@sinclair/typebox'
import { defineRule } from '../contract/rule.ts'
import { unmeasured } from '../judging/unmeasured.ts'

/** What a viewer does before it shows the picture, by the value of the tag. @source CIPA DC-008 (Exif), tag 0x0112. */
const TURNS: Readonly<Record<number, string>> = {
  2: 'mirror the pixels left to right',
  3: 'rotate the pixels by 180°',
  4: 'mirror the pixels top to bottom',
  5: 'mirror the pixels left to right and rotate them by 90° counterclockwise',
  6: 'rotate the pixels by 90° clockwise',
  7: 'mirror the pixels left to right and rotate them by 90° clockwise',
  8: 'rotate the pixels by 90° counterclockwise',
}

export const orientation = defineRule({
  id: 'orientation',
  severity: 'picture',
  dependsOn: 'export',
  text: {
    title: 'Pixels stored upright',
    measures: 'The EXIF orientation tag: upright means that it is absent or 1.',
    why: 'Some websites and directories ignore the tag and show the portrait on its side.',
    fix: 'Rotate the pixels themselves and clear the tag; most editors do so on export.',
    example: 'orientation: upright',
  },
  options: Type.Literal('upright', {
    description: 'The pixels are stored as they are shown, with no rotation in the EXIF tag.',
  }),
  needs: ['file'],
  judge({ measured }) {
    if (measured.widthPx === null) return unmeasured(measured, 'The orientation')
    const tag = measured.orientationTag
    const found = tag === null ? 'no tag' : `tag ${tag}`
    const finding = { measured: found, expected: 'upright (no tag, or tag 1)' }
    if (tag === null || tag === 1)
      return {
        verdict: 'pass',
        ...finding,
        reason: `The pixels are stored upright (${found}); the spec asks for upright pixels.`,
      }
    return {
      verdict: 'fail',
      ...finding,
      reason: `The pixels are not stored upright (EXIF orientation ${tag}); the spec asks for upright pixels.`,
      fix: `In an editor, ${TURNS[tag] ?? 'turn the pixels upright'} and clear the tag (set it to 1).`,
      export: { from: 'file', upright: true },
    }
  },
})
