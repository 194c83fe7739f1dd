import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { decodePicture } from '../../src/measure/file/decode.ts'
import { lensGlare } from '../../src/rules/finish/lens-glare.ts'
import { eyeLine } from '../../src/rules/sitter/eye-line.ts'
import { facing } from '../../src/rules/sitter/facing.ts'
import { headroom } from '../../src/rules/sitter/headroom.ts'
import { FACING_MARKS } from '../outside/facing-marks.ts'
import { PORTRAIT_MARKS, type PortraitMark } from '../outside/portrait-marks.ts'
import { packageFolder } from '../outside/portraits.ts'
import type { Judged } from './judged.ts'
import { aboutNumber, ask, type Question } from './questions.ts'

// Visible reflections on a lens, and lenses or bare eyes without, as seen by eye on enlargements.
const REFLECTING = ['team/1.jpg', 'soft-ui-design-system assets/img/team-3.jpg']
const CLEAR = ['team/3.jpg', 'fezbot.jpg', 'christian.jpg', 'marc.jpg']
const GLARE = { max: 3 }
const TURN = { turn: { max: 15 } }
/** In % of the frame height: twice what the marks are good to. */
const CLOSE = 1

/** The questions to the photographs of which the truth is marked, by what they show: light, medium or dark skin, and hair. */
export async function evaluatePhotographs(): Promise<Judged[]> {
  const judged: Judged[] = []
  for (const mark of PORTRAIT_MARKS) {
    const { source, path, skin, hair } = mark
    const content = await readFile(join(await packageFolder(source), path))
    const picture = await decodePicture(content, 1e8)
    const groups = [`skin ${skin}`, `hair ${hair}`]
    const answers = await ask(
      path,
      groups,
      picture,
      ['background', 'face', 'head', 'finish'],
      questions(mark),
    )
    judged.push(...answers.judged)
  }
  return judged
}

function questions({ source, path, plain, crown, eyes }: PortraitMark): Question[] {
  const name = `${source} ${path}`
  const turn = FACING_MARKS.find((mark) => mark.source === source && mark.path === path)?.turn
  const isOneOf = (names: readonly string[]) => names.some((end) => name.endsWith(end))
  const glare: Omit<Question, 'should'> = { measure: 'lens-glare', rule: lensGlare, options: GLARE }
  return [
    ...(plain ? aboutNumber('headroom', headroom, crown, CLOSE, ({ head }) => head?.headroomPct) : []),
    ...(plain && eyes
      ? aboutNumber('eye-line', eyeLine, (eyes[0][1] + eyes[1][1]) / 2, CLOSE, ({ head }) => head?.eyeLinePct)
      : []),
    ...(isOneOf(REFLECTING) ? [{ ...glare, should: 'fail' } as const] : []),
    ...(isOneOf(CLEAR) ? [{ ...glare, should: 'pass' } as const] : []),
    ...(turn
      ? [
          {
            measure: 'facing, turn',
            rule: facing,
            options: TURN,
            should: turn === 'ahead' ? 'pass' : 'fail',
          } as const,
        ]
      : []),
  ]
}
