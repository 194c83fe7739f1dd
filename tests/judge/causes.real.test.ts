import { join } from 'node:path'
import { expect, test } from 'vitest'
import { SITTERS } from '../../examples/drawing/sitters.ts'
import { judgeFile } from '../../src/judge/judge.ts'
import { measure } from '../../src/measure/measure.ts'
import { measurePicture } from '../../src/measure/picture.ts'
import { GROUPS, type Measurements } from '../../src/measure/schema/measurements.ts'
import { RULES } from '../../src/rules/index.ts'
import { drawnPortrait } from '../drawn.ts'
import { packageFolder } from '../outside/portraits.ts'
import { GOOD, GOOD_NAME } from '../rules/judging/cases.ts'
import { SPEC } from './sample.ts'

/** Every rule on what a picture shows. */
const settings = {
  'background-lightness': { min: 90 },
  'background-unevenness': { max: 4 },
  'background-tint': { 'max-chroma': 3 },
  'backdrop-edge': true,
  headroom: { min: 4 },
  'eye-line': { min: 20 },
  'head-height': { min: 40 },
  centering: { max: 3 },
  tilt: { max: 4 },
  facing: { turn: { max: 20 }, nod: { max: 20 } },
  'eye-focus': { max: 2 },
  'lens-glare': { max: 3 },
  clipping: { highlights: { max: 2 } },
  'key-side': { side: 'left' },
}

function verdictsOn(measured: Measurements): ReadonlyMap<string, string> {
  const spec = { ...SPEC, settings, deliverables: {}, advisory: [] }
  const outcomes = judgeFile({ measured, name: GOOD_NAME }, spec, RULES)
  return new Map(outcomes.map(({ rule, verdict }) => [rule, verdict]))
}

// Photographs of things and places. In the first the detector alone takes three spots for faces, with scores up to 0.70.
test.each(['about/3', 'about/1', 'portfolio/6', 'portfolio/5'])(
  'the photograph %s shows nobody: one-face fails, and no other rule is unsure',
  async (name) => {
    const folder = join(await packageFolder('startbootstrap-agency'), 'dist', 'assets', 'img')
    const measured = await measure({ file: 'a.jpg', path: join(folder, `${name}.jpg`) }, GROUPS)
    const verdicts = verdictsOn(measured)
    expect(verdicts.get('one-face')).toBe('fail')
    expect([...verdicts].filter(([, verdict]) => verdict === 'unsure')).toEqual([])
  },
)

test.each([0, 4, 9])(
  'the frame cuts the head of drawn sitter %i: headroom fails, for all rules',
  async (index) => {
    const look = SITTERS[index]?.look
    if (!look) throw new Error(`There is no sitter ${index}.`)
    const { pixels, widthPx, heightPx } = await drawnPortrait(look, {
      widthPx: 640,
      heightPx: 800,
      placement: { crownY: -0.03, chinY: 0.5 },
      backdrop: { color: 244 },
      key: { side: 'left', ratioStops: 0.5 },
    })
    const picture = { data: pixels, width: widthPx, height: heightPx, transparentShare: 0 }
    const verdicts = verdictsOn({
      ...GOOD,
      widthPx,
      heightPx,
      ...(await measurePicture(picture, ['background', 'face', 'head'])),
    })
    expect(verdicts.get('one-face')).toBe('pass')
    expect(verdicts.get('headroom')).toBe('fail')
    expect(verdicts.get('head-height')).toBe('skip')
  },
)
