import type { Measurements } from '../measure/schema/measurements.ts'
import type { Figure } from '../rules/contract/outcome.ts'
import { stopsBetween } from '../rules/judging/stops.ts'
import type { Advice, Change } from './advice.ts'
import type { SceneOutcome } from './frame-report.ts'

/** What the photographer is to change about what no crop changes. */
export function sceneAdvice(scene: readonly SceneOutcome[], measured: Measurements): Advice[] {
  return scene.flatMap((outcome) => {
    const { rule, deliverables, advisory, verdict } = outcome
    if (verdict !== 'fail' && verdict !== 'unsure') return []
    const changes: readonly Change[] =
      verdict === 'unsure'
        ? [{ code: 'check' }]
        : (CHANGES[rule]?.(outcome, measured) ?? [{ code: 'shoot-again' }])
    return changes.map((change) => ({ ...change, rule, deliverables, advisory }))
  })
}

type Changes = (outcome: SceneOutcome, measured: Measurements) => readonly Change[]

const CHANGES: Readonly<Record<string, Changes>> = {
  intact: () => [{ code: 'copy-again' }],
  'one-face': () => [{ code: 'one-person' }],
  facing: ({ figure }, { face }) => {
    if (!figure || !face) return [{ code: 'shoot-again' }]
    const deg = beyond(figure)
    const isTurn = figure.value === face.turnDeg
    if (isTurn) return [{ code: 'turn-head', deg: Math.abs(deg), side: deg > 0 ? 'left' : 'right' }]
    return [{ code: 'nod-head', deg: Math.abs(deg), side: deg > 0 ? 'down' : 'up' }]
  },
  'eye-focus': ({ figure }) => [{ code: figure && beyond(figure) < 0 ? 'shoot-again' : 'focus' }],
  'lens-glare': () => [{ code: 'tip-spectacles' }],
  clipping: ({ figure }, { finish }) => [
    { code: 'face-light', side: figure && figure.value === finish?.clippedShadowPct ? 'up' : 'down' },
  ],
  'key-side': ({ figure, expected }) => {
    if (figure) return [{ code: 'fill', stops: beyond(figure) }]
    const side = (['left', 'right'] as const).find((one) => expected?.endsWith(one))
    return [{ code: 'move-key', side: side ?? 'none' }]
  },
  'background-lightness': ({ figure }) => [
    {
      code: 'light-backdrop',
      ...(figure && { stops: stopsBetween(figure.value, figure.value - beyond(figure)) }),
    },
  ],
  'background-unevenness': () => [{ code: 'even-backdrop' }],
  'background-plain': () => [{ code: 'plain-backdrop' }],
  'background-tint': (_, { background }) => [
    { code: 'neutral-backdrop', ...(background && { hueDeg: background.hueDeg }) },
  ],
  'skin-cast': ({ figure }) => [{ code: 'white-balance', ...(figure && { hueDeg: figure.value }) }],
}

/** How far a value is beyond its limits: positive above, negative below. */
function beyond({ value, min = -Infinity, max = Infinity }: Figure): number {
  return Math.max(0, value - max) || Math.min(0, value - min)
}
